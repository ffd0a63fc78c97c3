// Which engine the address asks for first. The script that runs before the first
// frame asks too, so that it is on its way before the page's own script has come.

import { keeper } from '../base/start-watch'

/** The one that has every calculator. The files of an engine are in the elements of its name. */
export const WHOLE = 'engine'

/** The name of the engine that answers the address; nothing for the start page, which needs none. */
export function wantedEngine(): string | null {
  // In the one file it is there anyway.
  if (document.getElementById(`${WHOLE}-wasm`) instanceof HTMLScriptElement) return WHOLE
  const [, calculator] = /^#1\/([a-z-]+)/.exec(location.hash) ?? []
  if (calculator === undefined || calculator === 'about') return null
  const first = firstName(calculator)
  const isThere = document.getElementById(`${first}-wasm`) !== null
  // Where the page is kept, the whole one is at hand.
  return isThere && keeper() === null ? first : WHOLE
}

/** The name of the small engine of a calculator. */
export function firstName(calculator: string): string {
  return `first-${calculator}`
}

/** Has the browser fetch it, and the words of the page. */
export function fetchEarly(): void {
  const engine = wantedEngine()
  const files = engine === null ? [] : [`${engine}-wasm`, `${engine}-words`]
  for (const id of ['page-words', ...files]) {
    const link = document.getElementById(id)
    if (link instanceof HTMLLinkElement) link.rel = 'preload'
  }
}
