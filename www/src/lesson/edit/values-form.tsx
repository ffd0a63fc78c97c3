import type { FieldDescription } from '../../../generated/contract'
import { say } from '../../base/words'
import type { Texts } from '../../screen/link'
import { Select, TextInput } from './inputs'
import type { Offers } from './offers'

/** A record without one of its entries. */
export function without<T>(record: Readonly<Record<string, T>>, id: string): Record<string, T> {
  return Object.fromEntries(Object.entries(record).filter(([key]) => key !== id))
}

interface ValueProperties {
  readonly field: FieldDescription | undefined
  readonly name: string
  readonly value: string
  readonly onChange: (value: string) => void
}

/** What stands in a field: one of its answers, or a quantity. */
export function ValueInput({ field, name, value, onChange }: ValueProperties) {
  if (field?.choice) return <Select name={name} value={value} onChange={onChange} among={field.choice.options} />
  return <TextInput name={name} value={value} onChange={onChange} />
}

interface Properties {
  readonly name: string
  readonly hint?: string
  readonly offers: Offers | null
  readonly values: Texts
  readonly onChange: (values: Record<string, string>, merge: string | null) => void
}

/** What stands in some fields of a rig instead. */
export function ValuesForm({ name, hint, offers, values, onChange }: Properties) {
  const fields = offers?.description.fields ?? []
  const free = fields.filter(({ id }) => !Object.hasOwn(values, id))
  return (
    <fieldset class="edit-rows">
      <legend>{name}</legend>
      {hint !== undefined && <p class="hint">{hint}</p>}
      {Object.entries(values).map(([id, value]) => {
        const field = fields.find(field => field.id === id)
        return (
          <div class="edit-row" key={id}>
            <ValueInput
              field={field}
              name={field?.name ?? id}
              value={value}
              onChange={next => onChange({ ...values, [id]: next }, `${name} ${id}`)}
            />
            <button
              type="button"
              class="chip edit-remove"
              aria-label={say('lesson-edit-remove-row', { list: name, place: field?.name ?? id })}
              title={say('lesson-edit-remove')}
              onClick={() => onChange(without(values, id), null)}
            >
              ×
            </button>
          </div>
        )
      })}
      {free.length > 0 && (
        <Select
          name={say('lesson-edit-add-value')}
          value=""
          among={free}
          onChange={id => id !== '' && onChange({ ...values, [id]: offers?.values[id] ?? '' }, null)}
        />
      )}
    </fieldset>
  )
}
