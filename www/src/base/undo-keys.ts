import { useEffect } from 'preact/hooks'
import { wayOfKey, type Way } from './undo-way'

/** What has an undoing of its own. */
const TEXT = 'input:is([type=text], [type=search], [type=number], :not([type])), textarea, [contenteditable]'

/** The keys that undo and redo everywhere, outside of what is typed into. */
export function useUndoKeys(go: (way: Way) => void): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const way = wayOfKey(event)
      if (way === null || event.defaultPrevented) return
      if (event.target instanceof Element && event.target.matches(TEXT)) return
      event.preventDefault()
      go(way)
    }
    document.addEventListener('keydown', pressed)
    return () => document.removeEventListener('keydown', pressed)
  }, [go])
}
