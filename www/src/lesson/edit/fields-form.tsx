import { say } from '../../base/words'
import { Select } from './inputs'
import type { Formed } from './step-form'

const WAYS = ['hidden', 'given', 'open'] as const

/** What a learner sees of the fields of the rig: nothing, unless its author says so. */
export function FieldsForm({ step, offers, put }: Formed) {
  const { open = [], given = [] } = step
  const known = offers?.description.fields ?? []
  const unknown = [...new Set([...open, ...given])].filter(id => known.every(field => field.id !== id))
  const fields = [...known, ...unknown.map(id => ({ id, name: id }))]
  if (fields.length === 0) return null
  const wayOf = (id: string) => (open.includes(id) ? 'open' : given.includes(id) ? 'given' : 'hidden')
  const choose = (id: string, way: string) => {
    const without = (ids: readonly string[]) => ids.filter(other => other !== id)
    put(
      {
        open: way === 'open' ? [...without(open), id] : without(open),
        given: way === 'given' ? [...without(given), id] : without(given),
      },
      null,
    )
  }
  const named = (ids: readonly string[]) => ids.map(id => fields.find(field => field.id === id)?.name ?? id).join(', ')
  return (
    <details class="edit-fold">
      <summary>
        {say('lesson-edit-fields')}{' '}
        <span class="hint">
          {given.length + open.length === 0
            ? say('lesson-edit-fields-none')
            : [
                ...(given.length > 0 ? [say('lesson-edit-fields-given', { fields: named(given) })] : []),
                ...(open.length > 0 ? [say('lesson-edit-fields-open', { fields: named(open) })] : []),
              ].join(' · ')}
        </span>
      </summary>
      <p class="hint">{say('lesson-edit-fields-hint')}</p>
      <div class="edit-values">
        {fields.map(({ id, name }) => (
          <Select
            key={id}
            name={name}
            value={wayOf(id)}
            among={WAYS.map(id => ({ id, name: say(`lesson-edit-field-${id}`) }))}
            onChange={way => choose(id, way)}
          />
        ))}
      </div>
    </details>
  )
}
