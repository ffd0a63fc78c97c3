import { useEffect, useRef } from 'preact/hooks'
import type { FieldDescription, Gear } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { SelectInput, TextInput } from '../show/inputs'
import { edit, freeId, getProject } from '../show/project'
import { QuantityInput } from '../show/quantity-input'
import { RowTools } from '../show/row-tools'
import { forReader, useEchoes, type Echoes } from '../show/values'
import { inShort, isAsked, nameOf, valuesOf, type KindFields } from './kinds'
import { usersOf } from './users'

interface Properties {
  readonly gear: Gear
  /** Its place in the drawer. */
  readonly place: number
  readonly fields: KindFields
  readonly open: boolean
  readonly onOpen: (open: boolean) => void
  /** Says what was done, and which gear is open then. */
  readonly onDone: (text: string, opened: string | null) => void
}

/** A piece of gear: its name and values in short, and all of it once it is opened. */
export function GearCard({ gear, place, fields, open, onOpen, onDone }: Properties) {
  const settings = useStore(state => state.settings)
  const echoes = useEchoes(valuesOf(gear))
  const card = useRef<HTMLDetailsElement>(null)
  const wrong = Object.keys(gear.values).some(id => echoes?.[id]?.problem)
  const { name, count } = gear
  useEffect(() => {
    if (open) card.current?.querySelector('summary')?.focus()
  }, [open])
  return (
    <li data-gear={gear.id}>
      <details
        ref={card}
        open={open}
        onToggle={event => event.currentTarget.open !== open && onOpen(event.currentTarget.open)}
      >
        <summary>
          <bdi>{name === '' ? say('stage-gear-unnamed') : name}</bdi>
          {count !== null && <span class="gear-count">× {count}</span>}
          {wrong && <strong class="gear-wrong">{say('stage-gear-wrong')}</strong>}
          <span class="hint">{inShort(fields, forReader(gear.values, settings), echoes, settings)}</span>
        </summary>
        {open && <GearForm gear={gear} place={place} fields={fields} echoes={echoes} />}
        {open && <Tools gear={gear} onDone={onDone} />}
      </details>
    </li>
  )
}

interface FormProperties extends Pick<Properties, 'gear' | 'place' | 'fields'> {
  readonly echoes: Echoes | null
}

function GearForm({ gear, place, fields, echoes }: FormProperties) {
  const { id, values } = gear
  const put = (part: 'name' | 'note' | 'measured') => (text: string) =>
    change(id, draft => void (draft[part] = text), part)
  const where = (field: string) => ({ list: 'gear', place, field })
  const asked = (some: readonly FieldDescription[]) => some.filter(field => isAsked(field, valuesOf(gear), echoes))
  const more = asked(fields.more)
  const input = (field: FieldDescription) => (
    <Value key={field.id} gear={gear} field={field} echo={echoes?.[field.id]} />
  )
  return (
    <div class="gear-form">
      <TextInput label={say('stage-row-name')} value={gear.name} onText={put('name')} where={where('name')} />
      <Count gear={gear} />
      {asked(fields.first).map(input)}
      {more.length > 0 && (
        <details class="gear-more" open={more.some(({ id }) => echoes?.[id]?.problem && Object.hasOwn(values, id))}>
          <summary>
            <span>{say('stage-more-values')}</span>
            <span class="hint">{more.map(nameOf).join(', ')}</span>
          </summary>
          <div class="gear-form">{more.map(input)}</div>
        </details>
      )}
      <TextInput label={say('stage-gear-measured')} value={gear.measured} onText={put('measured')} />
      <TextInput label={say('stage-note')} value={gear.note} onText={put('note')} />
    </div>
  )
}

/** Changes a piece of gear; what is typed into one field is one step. */
function change(id: string, how: (draft: Gear) => void, part: string): void {
  edit(
    say('stage-gear-changed', { name: getProject().show.gear.find(one => one.id === id)?.name ?? '' }),
    draft => {
      const one = draft.gear.find(one => one.id === id)
      if (one !== undefined) how(one)
    },
    `gear ${id} ${part}`,
  )
}

function Count({ gear: { id, count } }: { readonly gear: Gear }) {
  return (
    <TextInput
      label={say('stage-count')}
      value={count === null ? '' : `${count}`}
      hint={say('stage-not-counted')}
      numeric
      onText={text => {
        const digits = text.replace(/\D/g, '').slice(0, 5)
        change(id, draft => void (draft.count = digits === '' ? null : Number(digits)), 'count')
      }}
    />
  )
}

interface ValueProperties {
  readonly gear: Gear
  readonly field: FieldDescription
  readonly echo: Echoes[string] | undefined
}

/** One value; an empty one is left to what is usual. */
function Value({ gear, field, echo }: ValueProperties) {
  const { id, number, choice } = field
  const name = nameOf(field)
  const put = (text: string) =>
    change(
      gear.id,
      ({ values }) => {
        if (text === '') delete values[id]
        else values[id] = text
      },
      id,
    )
  if (choice !== null) {
    const usual = valuesOf({ kind: gear.kind, values: {} })[id] ?? choice.default
    const known = choice.options.find(option => option.id === usual)?.name ?? usual
    const options = choice.options.map(option => [option.id, option.name] as const)
    return (
      <SelectInput
        label={name}
        value={gear.values[id] ?? ''}
        options={[['', say('stage-usual', { text: known })], ...options]}
        onChoice={put}
      />
    )
  }
  const usual = number === null || number.default === null ? '' : number.default_text
  return (
    <QuantityInput
      label={name}
      field={id}
      texts={gear.values}
      echo={echo}
      hint={usual === '' ? undefined : say('stage-usual', { text: usual })}
      onText={put}
    />
  )
}

function Tools({ gear, onDone }: Pick<Properties, 'gear' | 'onDone'>) {
  const { id, name } = gear
  const duplicate = () => {
    const { show } = getProject()
    const copy = { ...gear, id: freeId(show.gear, name), name: say('stage-copy-of', { name }) }
    const what = say('stage-duplicated', { name })
    edit(what, draft => void draft.gear.splice(draft.gear.findIndex(one => one.id === id) + 1, 0, copy))
    onDone(what, copy.id)
  }
  const remove = () => {
    const what = say('stage-row-deleted', { name })
    edit(what, draft => void (draft.gear = draft.gear.filter(one => one.id !== id)))
    onDone(what, null)
  }
  return <RowTools name={name} users={() => usersOf(getProject().show, id)} onDuplicate={duplicate} onDelete={remove} />
}
