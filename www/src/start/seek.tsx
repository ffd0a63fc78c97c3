import { useCallback, useLayoutEffect, useRef, useState } from 'preact/hooks'
import { say } from '../base/words'
import { getState } from '../screen/store'
import { Finder } from './finder'
import { isSlashOn } from './slash-key'

/** Where a `/` may be part of what is typed. */
const TYPED = 'select, textarea, input:not([type=radio], [type=checkbox], [type=range])'
/** On the start screen the search is there already. */
const START_BOX = 'find'

/** The search from everywhere else: a button, and the keys that lead to it. */
export function Seek({ button }: { readonly button: boolean }) {
  const [open, setOpen] = useState(false)
  const close = useCallback(() => setOpen(false), [])
  // With the first frame: whoever sees the page may press a key.
  useLayoutEffect(() => {
    const listener = (event: KeyboardEvent) => {
      if (!isWanted(event)) return
      event.preventDefault()
      const box = document.getElementById(START_BOX)
      if (getState().place.kind !== 'calculator' && box instanceof HTMLInputElement) {
        box.focus()
        box.select()
      } else setOpen(true)
    }
    addEventListener('keydown', listener)
    return () => removeEventListener('keydown', listener)
  }, [])
  return (
    <>
      {button && (
        <button
          type="button"
          class="quiet seek"
          aria-haspopup="dialog"
          aria-keyshortcuts="Control+K"
          aria-label={say('search')}
          title={say('search')}
          onClick={() => setOpen(true)}
        >
          <svg viewBox="0 0 24 24" aria-hidden="true">
            <circle cx="10.5" cy="10.5" r="6" />
            <path d="m15 15 5.5 5.5" />
          </svg>
        </button>
      )}
      {open && <SeekDialog onClose={close} />}
    </>
  )
}

function SeekDialog({ onClose }: { readonly onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null)
  const [text, setText] = useState('')
  const close = () => dialog.current?.close()
  // At once: the next key is a letter of the question.
  useLayoutEffect(() => {
    const shown = dialog.current
    shown?.showModal()
    shown?.querySelector('input')?.focus()
    // Back, or a link that is opened from elsewhere, leads to another screen.
    const leave = () => shown?.close()
    addEventListener('hashchange', leave)
    return () => removeEventListener('hashchange', leave)
  }, [])
  return (
    <dialog
      ref={dialog}
      class="seek-dialog"
      aria-label={say('search')}
      onClose={onClose}
      onClick={event => event.target === dialog.current && close()}
    >
      <div class="inside">
        <button type="button" class="quiet close" onClick={close}>
          {say('search-close')}
        </button>
        <Finder id="seek" text={text} onText={setText} onOpen={close} />
      </div>
    </dialog>
  )
}

/** Ctrl+K or ⌘K anywhere; a plain `/` only where nothing is typed, and while it is not switched off. */
function isWanted(event: KeyboardEvent): boolean {
  if (event.defaultPrevented || event.isComposing) return false
  if (event.key.toLowerCase() === 'k') return (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey
  if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return false
  const { target } = event
  const typing = target instanceof HTMLElement && (target.isContentEditable || target.matches(TYPED))
  return !typing && isSlashOn()
}
