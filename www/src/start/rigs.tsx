import { useRef, useState } from 'preact/hooks'
import type { Description } from '../../generated/contract'
import { keepRig, nameOf, removeRig, renameRig, rigOf, rigs, type Rig } from '../screen/rigs'
import { Put } from './put'
import { RigName } from './rig-name'
import { say, toldOfCalculators } from '../base/words'

/** The rigs that the reader named: opened by a tap, renamed, removed. */
export function Rigs({ descriptions }: { readonly descriptions: readonly Description[] }) {
  const [all, setAll] = useState(rigs)
  const [removed, setRemoved] = useState<Rig | null>(null)
  const [refused, setRefused] = useState(false)
  const heading = useRef<HTMLHeadingElement>(null)
  const after = (taken: boolean) => {
    setRefused(!taken)
    setAll(rigs())
    // What had the focus is gone.
    heading.current?.focus()
  }
  if (all.length === 0 && removed === null) return null
  return (
    <section class="rigs" aria-labelledby="rigs">
      <h2 id="rigs" tabIndex={-1} ref={heading}>
        {say('rigs')}
      </h2>
      <ul>
        {all.map(rig => (
          <One
            key={rig.name}
            rig={rig}
            description={descriptions.find(({ id }) => id === rig.calculator)}
            onRename={name => {
              setRemoved(null)
              after(renameRig(rig, name))
            }}
            onRemove={() => {
              setRemoved(rig)
              after(removeRig(rig))
            }}
          />
        ))}
      </ul>
      <div role="status">
        {removed !== null && <p>{say('rig-removed', { name: removed.name })}</p>}
        {refused && <p class="problem">{say('rig-change-refused')}</p>}
      </div>
      {removed !== null && (
        <button
          type="button"
          class="chip"
          onClick={() => {
            setRemoved(null)
            after(keepRig(removed))
          }}
        >
          {say('undo')}
        </button>
      )}
    </section>
  )
}

interface Properties {
  readonly rig: Rig
  readonly description: Description | undefined
  readonly onRename: (name: string) => void
  readonly onRemove: () => void
}

function One({ rig, description, onRename, onRemove }: Properties) {
  const [changing, setChanging] = useState(false)
  const { name, hash, calculator } = rig
  return (
    <li data-rig={name}>
      <a href={hash}>
        <bdi>{name}</bdi>
        <span class="kind">{toldOfCalculators().find(({ id }) => id === calculator)?.title ?? calculator}</span>
        <Put hash={hash} description={description} />
      </a>
      <button
        type="button"
        class="quiet"
        aria-expanded={changing}
        aria-label={say('rig-change-named', { name })}
        onClick={() => setChanging(!changing)}
      >
        {say('rig-change')}
      </button>
      {changing && <Change name={name} onRename={onRename} onRemove={onRemove} />}
    </li>
  )
}

function Change({ name, onRename, onRemove }: { readonly name: string } & Pick<Properties, 'onRename' | 'onRemove'>) {
  const [typed, setTyped] = useState(name)
  const wanted = nameOf(typed)
  const taken = wanted !== name && rigOf(wanted) !== undefined
  return (
    <form
      class="name-rig"
      onSubmit={event => {
        event.preventDefault()
        if (wanted !== '' && !taken) onRename(wanted)
      }}
    >
      <RigName name={typed} onName={setTyped} aria-invalid={taken} />
      {taken && (
        <p class="problem" role="alert">
          {say('rig-taken')}
        </p>
      )}
      <div class="tools">
        <button type="submit" class="chip">
          {say('rig-rename')}
        </button>
        <button type="button" class="chip" onClick={onRemove}>
          {say('rig-remove')}
        </button>
      </div>
    </form>
  )
}
