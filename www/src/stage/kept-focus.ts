// Who works by keys stays where they are when what had the focus goes away.

import type { RefObject } from 'preact'
import { useEffect } from 'preact/hooks'

/** Where a button or an input loses the focus as it goes away or is disabled, it gets it back, or the nearest heading around it does. */
export function useKeptFocus(root: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const within = root.current
    if (within === null) return
    let last: HTMLElement | null = null
    let around: readonly Element[] = []
    const focused = ({ target }: FocusEvent) => {
      last = target instanceof HTMLElement ? target : null
      around = ancestors(last, within)
    }
    const look = () => {
      if (document.activeElement !== document.body || last === null) return
      last.focus({ preventScroll: true })
      if (document.activeElement === document.body) headingOf(around)?.focus({ preventScroll: true })
    }
    // Whoever presses beside everything wants nothing to have it.
    const pressed = () => (last = null)
    // Later than what the change itself wants to have the focus.
    const observer = new MutationObserver(() => requestAnimationFrame(() => setTimeout(look)))
    within.addEventListener('focusin', focused)
    addEventListener('pointerdown', pressed)
    observer.observe(within, { childList: true, subtree: true, attributeFilter: ['disabled'] })
    return () => {
      within.removeEventListener('focusin', focused)
      removeEventListener('pointerdown', pressed)
      observer.disconnect()
    }
  }, [root])
}

function ancestors(element: Element | null, within: Element): readonly Element[] {
  const found: Element[] = []
  for (let one = element?.parentElement ?? null; one !== null && within.contains(one); one = one.parentElement) {
    found.push(one)
  }
  return found
}

/** The first heading that is seen in the nearest of these that is still there. */
function headingOf(around: readonly Element[]): HTMLElement | null {
  for (const one of around) {
    if (!one.isConnected) continue
    const seen = [...one.querySelectorAll<HTMLElement>('h1, h2, h3, h4')].find(
      heading => heading.closest('.unseen') === null && heading.checkVisibility(),
    )
    if (seen === undefined) continue
    if (!seen.hasAttribute('tabindex')) seen.tabIndex = -1
    return seen
  }
  return null
}
