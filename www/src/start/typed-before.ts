// The search field stands in the page before any script has come.

import { search } from '../screen/screen'
import { getState } from '../screen/store'

/** Searches for what was typed there; the caret goes on in the field that is drawn, once what is returned is called. */
export function typedBefore(): () => void {
  const before = document.querySelector<HTMLInputElement>('#page #find')
  if (before === null || getState().place.kind !== 'list') return () => {}
  const { value, selectionStart, selectionEnd } = before
  const wasFocused = before === document.activeElement
  if (value.trim() !== '') search(value)
  return () => {
    const now = document.getElementById(before.id)
    if (!wasFocused || !(now instanceof HTMLInputElement)) return
    now.focus()
    now.setSelectionRange(selectionStart, selectionEnd)
  }
}
