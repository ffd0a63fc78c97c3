import { useCallback, useEffect, useRef, useState } from 'preact/hooks'
import { takeEscape } from '../../base/escape'
import { say } from '../../base/words'
import { FirstShow } from './first-show'
import { isInvented } from './invented'
import { tell, useKeeping } from './keeping'
import { Notices } from './notices'
import { redo, undo, useProject } from './project'
import { SaveShow } from './save-show'
import { ShowPanel } from './show-panel'
import { nameOf } from './shows'
import { useUndoKeys } from '../../base/undo-keys'
import { useDrop } from './use-drop'
import { when } from './when'

/** The name of the show, undo and redo, and what is done with all of it. */
export function ShowBar({ view }: { readonly view: string }) {
  const name = useProject(({ show }) => nameOf(show.name))
  const invented = useProject(({ show }) => isInvented(show))
  const { first, trouble, told } = useKeeping(keeping => keeping)
  const [open, setOpen] = useState(false)
  const opener = useRef<HTMLButtonElement>(null)
  useDrop()
  // Whoever goes to another view is done with the panel.
  useEffect(() => setOpen(false), [view])
  return (
    <section class="show" aria-label={say('stage-show')}>
      <div class="show-bar">
        <p class="show-name">
          <bdi>{name}</bdi>
          {invented && <span class="show-mark">{say('stage-invented')}</span>}
        </p>
        <Steps />
        <button
          type="button"
          class="chip"
          ref={opener}
          aria-expanded={open}
          aria-controls="show-panel"
          onClick={() => setOpen(!open)}
        >
          {say('stage-show')} <span aria-hidden="true">{open ? '▴' : '▾'}</span>
        </button>
      </div>
      {!first && <SavedWhen />}
      <p class="unseen" role="status">
        {told}
      </p>
      {trouble !== null && (
        <div class="notice" role="alert">
          <p>{say(`stage-trouble-${trouble}`)}</p>
          <SaveShow />
        </div>
      )}
      <Notices />
      {first && <FirstShow />}
      <div
        id="show-panel"
        hidden={!open}
        onKeyDown={event => {
          if (!takeEscape(event)) return
          setOpen(false)
          opener.current?.focus()
        }}
      >
        {open && <ShowPanel />}
      </div>
    </section>
  )
}

function Steps() {
  const last = useProject(({ done }) => done.at(-1)?.what)
  const next = useProject(({ undone }) => undone.at(-1)?.what)
  const go = useCallback((way: 'undo' | 'redo') => {
    const what = way === 'undo' ? undo() : redo()
    if (what !== null) tell(say(way === 'undo' ? 'undone' : 'redone', { what }))
  }, [])
  useUndoKeys(go)
  return (
    <>
      <Step way="undo" what={last} onPress={() => go('undo')} />
      <Step way="redo" what={next} onPress={() => go('redo')} />
    </>
  )
}

interface StepProperties {
  readonly way: 'undo' | 'redo'
  readonly what: string | undefined
  readonly onPress: () => void
}

/** Where nothing is left to do it keeps the focus. */
function Step({ way, what, onPress }: StepProperties) {
  const name = what === undefined ? say(way) : say(`stage-${way}-what`, { what })
  return (
    <button
      type="button"
      class="show-step"
      aria-label={name}
      title={name}
      aria-disabled={what === undefined}
      onClick={onPress}
    >
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path
          d={way === 'undo' ? 'M9 5 4 10l5 5M4 10h10a5 5 0 0 1 0 10h-3' : 'm15 5 5 5-5 5M20 10H10a5 5 0 0 0 0 10h3'}
        />
      </svg>
    </button>
  )
}

function SavedWhen() {
  const saved = useKeeping(keeping => keeping.saved)
  return (
    <p class="hint show-saved">
      {saved === null ? say('stage-saved-never') : say('stage-saved-at', { when: when(saved.at) })}
      {saved !== null && saved.changes > 0 && ` ${say('stage-saved-since', { count: `${saved.changes}` })}`}
    </p>
  )
}
