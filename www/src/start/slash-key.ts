// A key of one character may be in the way of those who speak to their machine
// or touch keys by accident, so it can be switched off (WCAG 2.2, 2.1.4).

import { keepChoice, load } from '../base/kept'

const KEY = 'slash-key'

export function isSlashOn(): boolean {
  return load(KEY, isBoolean) ?? true
}

export function setSlash(on: boolean): void {
  keepChoice(KEY, on)
}

function isBoolean(value: unknown): value is boolean {
  return typeof value === 'boolean'
}
