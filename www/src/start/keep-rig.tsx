import { useRef, useState } from 'preact/hooks'
import { Copy } from '../base/copy'
import { takeEscape } from '../base/escape'
import { whole } from '../screen/address'
import { keepRig, nameOf, rigOf, type Rig } from '../screen/rigs'
import { currentHash } from '../screen/shown'
import { useStore } from '../screen/store'
import { RigName } from './rig-name'
import { say } from '../base/words'

interface Told {
  readonly how: 'kept' | 'replaced' | 'restored' | 'refused' | 'change-refused'
  readonly name: string
  /** What had the name before, while it can be had back. */
  readonly before?: Rig | undefined
}

/** Keeps what is on the screen on this device, under a name of the reader's own. */
export function KeepRig({ calculator }: { readonly calculator: string }) {
  const [open, setOpen] = useState(false)
  const [told, setTold] = useState<Told | null>(null)
  const opener = useRef<HTMLButtonElement>(null)
  const keep = (name: string) => {
    const before = rigOf(name)
    const taken = keepRig({ name, calculator, hash: currentHash() })
    setTold({ how: !taken ? 'refused' : before === undefined ? 'kept' : 'replaced', name, before })
    close()
  }
  const restore = (before: Rig) => {
    setTold({ how: keepRig(before) ? 'restored' : 'change-refused', name: before.name })
    opener.current?.focus()
  }
  const close = () => {
    setOpen(false)
    opener.current?.focus()
  }
  return (
    <div class="keep-rig" onKeyDown={event => open && takeEscape(event) && close()}>
      <button
        type="button"
        class="chip"
        ref={opener}
        aria-expanded={open}
        onClick={() => {
          setOpen(!open)
          setTold(null)
        }}
      >
        {say('rig-keep')}
      </button>
      {open && <NameRig onKeep={keep} />}
      <p role="status">{told !== null && say(`rig-${told.how}`, { name: told.name })}</p>
      {told?.before !== undefined && <Undo before={told.before} onUndo={restore} />}
      {told?.how === 'refused' && <Copy text={() => whole(currentHash())} name={say('share-copy')} />}
    </div>
  )
}

interface UndoProperties {
  readonly before: Rig
  readonly onUndo: (before: Rig) => void
}

function Undo({ before, onUndo }: UndoProperties) {
  return (
    <button type="button" class="chip" onClick={() => onUndo(before)}>
      {say('undo')}
    </button>
  )
}

function NameRig({ onKeep }: { readonly onKeep: (name: string) => void }) {
  const [name, setName] = useState('')
  const full = useStore(state => state.full)
  const wanted = nameOf(name)
  if (full) return <p class="problem">{say('rig-full')}</p>
  return (
    <form
      class="name-rig"
      onSubmit={event => {
        event.preventDefault()
        if (wanted !== '') onKeep(wanted)
      }}
    >
      <RigName name={name} onName={setName} placeholder={say('rig-example')} inputRef={focus} />
      <button type="submit" class="chip">
        {rigOf(wanted) === undefined ? say('rig-keep-now') : say('rig-replace', { name: wanted })}
      </button>
    </form>
  )
}

function focus(input: HTMLInputElement | null): void {
  input?.focus()
}
