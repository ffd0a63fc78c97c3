import { useState } from 'preact/hooks'
import type { FieldDescription } from '../../generated/contract'
import { Field } from './field'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** The fields, as stops on the signal's way from the source to the console. */
export function Fields({ fields }: { readonly fields: readonly FieldDescription[] }) {
  const groups = grouped(fields)
  return (
    <ol class="way" role="list" aria-label={say('way')}>
      {[...groups].map(([group, fields]) => (
        <Stop key={group} name={group} fields={fields} />
      ))}
    </ol>
  )
}

function grouped(fields: readonly FieldDescription[]): Map<string, FieldDescription[]> {
  const groups = new Map<string, FieldDescription[]>()
  for (const field of fields) groups.set(field.group, [...(groups.get(field.group) ?? []), field])
  return groups
}

interface StopProperties {
  readonly name: string
  readonly fields: readonly FieldDescription[]
}

function Stop({ name, fields }: StopProperties) {
  const shown = fields.filter(({ detail }) => !detail)
  const details = fields.filter(({ detail }) => detail)
  const none = useStore(({ answer }) => fields.every(({ id }) => answer?.fields[id]?.active === false))
  if (none) return null
  return (
    <li class="stop">
      {name !== '' && <h2>{name}</h2>}
      {shown.map(field => (
        <Field key={field.id} field={field} />
      ))}
      {details.length > 0 && <Details stop={name} fields={details} />}
    </li>
  )
}

interface DetailsProperties {
  readonly stop: string
  readonly fields: readonly FieldDescription[]
}

/** What may be left alone at first; open where something in it is not as usual. */
function Details({ stop, fields }: DetailsProperties) {
  const [chosen, choose] = useState<boolean | null>(null)
  const touched = useStore(({ place, answer }) =>
    fields.some(
      ({ id }) =>
        answer?.fields[id]?.problem || (place.kind === 'calculator' && Object.hasOwn(place.filling.current, id)),
    ),
  )
  const none = useStore(({ answer }) => fields.every(({ id }) => answer?.fields[id]?.active === false))
  if (none) return null
  const open = chosen ?? touched
  return (
    <details open={open} onToggle={event => event.currentTarget.open !== open && choose(event.currentTarget.open)}>
      <summary>
        <span>{stop === '' ? say('details') : say('details-of', { stop })}</span>
        <span class="hint">{fields.map(({ name }) => name).join(', ')}</span>
      </summary>
      {fields.map(field => (
        <Field key={field.id} field={field} />
      ))}
    </details>
  )
}
