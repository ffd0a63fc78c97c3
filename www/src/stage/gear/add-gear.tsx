import { useId, useState } from 'preact/hooks'
import type { Gear } from '../../../generated/contract'
import { say } from '../../base/words'
import { edit, freeId, getProject } from '../show/project'
import { CLASSES, type GearClass } from './classes'
import { KINDS } from './kinds'

/** Adds gear as it usually is, or of a kind and nothing more. */
export function AddGear({ onAdded }: { readonly onAdded: (text: string, opened: string) => void }) {
  const [chosen, choose] = useState(CLASSES[0]?.id ?? '')
  const id = useId()
  return (
    <form
      class="add-gear"
      onSubmit={event => {
        event.preventDefault()
        const added = add(chosen)
        onAdded(say('stage-added', { name: added.name }), added.id)
      }}
    >
      <div class="stage-field">
        <label for={id}>{say('stage-gear-add')}</label>
        <select id={id} value={chosen} onChange={event => choose(event.currentTarget.value)}>
          {KINDS.map(kind => (
            <optgroup key={kind} label={say(`stage-drawer-${kind}`)}>
              {CLASSES.filter(one => one.kind === kind).map(one => (
                <option key={one.id} value={one.id}>
                  {nameOf(one)}
                </option>
              ))}
              <option value={kind}>{say(`stage-other-${kind}`)}</option>
            </optgroup>
          ))}
        </select>
      </div>
      <button type="submit" class="chip">
        {say('stage-add')}
      </button>
    </form>
  )
}

function nameOf({ id }: GearClass): string {
  return say(`stage-class-${id}`)
}

function add(chosen: string): Gear {
  const one = CLASSES.find(({ id }) => id === chosen)
  const { gear } = getProject().show
  const kind = one?.kind ?? KINDS.find(kind => kind === chosen) ?? 'source'
  const name = free(
    one === undefined ? say(`stage-other-${kind}`) : nameOf(one),
    gear.map(({ name }) => name),
  )
  const id = freeId(gear, one?.id ?? kind)
  const added: Gear = { id, name, kind, values: { ...one?.values }, count: 1, note: '', measured: '' }
  edit(say('stage-added', { name }), draft => void draft.gear.push(added))
  return added
}

/** A name that no other gear has. */
function free(name: string, taken: readonly string[]): string {
  for (let count = 2, tried = name; ; tried = `${name} ${count++}`) if (!taken.includes(tried)) return tried
}
