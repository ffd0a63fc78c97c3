// The key that switches while something plays; it can be switched off (WCAG 2.1.4).

import { useEffect, useRef } from 'preact/hooks'
import { keepChoice, peek } from '../base/kept'

const KEY = 'hear-key'
/** What has its own use for letters. */
const TEXT = 'input:not([type=radio], [type=checkbox], [type=range]), select, textarea, [contenteditable]'

export function isKeyOn(): boolean {
  return peek(KEY, (value): value is boolean => typeof value === 'boolean') ?? true
}

export function keepKeyOn(on: boolean): void {
  keepChoice(KEY, on)
}

/** Does it on X, while that is on. */
export function useSwitchKey(on: boolean, deed: () => void): void {
  const newest = useRef(deed)
  newest.current = deed
  useEffect(() => {
    if (!on) return
    const press = (event: KeyboardEvent) => {
      const { target } = event
      if (event.key.toLowerCase() !== 'x' || event.ctrlKey || event.metaKey || event.altKey || event.repeat) return
      if (event.defaultPrevented || (target instanceof Element && target.closest(TEXT) !== null)) return
      event.preventDefault()
      newest.current()
    }
    document.addEventListener('keydown', press)
    return () => document.removeEventListener('keydown', press)
  }, [on])
}
