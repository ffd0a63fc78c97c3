// Single keys for whoever stands in front of a class; they can be switched off (WCAG 2.1.4).

import { useEffect, useRef } from 'preact/hooks'
import { keepChoice, peek } from '../../base/kept'

export type Deed = 'back' | 'next' | 'reveal' | 'notes' | 'blank'

const KEY = 'lesson-keys'

const DEEDS: Readonly<Record<string, Deed>> = {
  ArrowLeft: 'back',
  PageUp: 'back',
  ArrowRight: 'next',
  PageDown: 'next',
  ' ': 'reveal',
  n: 'notes',
  N: 'notes',
  p: 'blank',
  P: 'blank',
}

/** What has its own use for keys that are pressed on it. */
const OWN = 'input, select, textarea, [role=slider], [contenteditable]'
/** What a space presses. */
const PRESSED = 'button, a, summary, .wide'

export function areKeysOn(): boolean {
  return peek(KEY, isSwitch) ?? true
}

export function keepKeysOn(on: boolean): void {
  keepChoice(KEY, on)
}

function isSwitch(value: unknown): value is boolean {
  return typeof value === 'boolean'
}

/** Does what a key stands for, while keys are on. */
export function useKeys(on: boolean, deeds: Readonly<Record<Deed, () => void>>): void {
  const newest = useRef(deeds)
  newest.current = deeds
  useEffect(() => {
    if (!on) return
    const press = (event: KeyboardEvent) => {
      const deed = Object.hasOwn(DEEDS, event.key) ? DEEDS[event.key] : undefined
      if (deed === undefined || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return
      const { target } = event
      const isOn = (what: string) => target instanceof Element && target.closest(what) !== null
      if (isOn(OWN) || (deed === 'reveal' && isOn(PRESSED))) return
      event.preventDefault()
      newest.current[deed]()
    }
    addEventListener('keydown', press)
    return () => removeEventListener('keydown', press)
  }, [on])
}
