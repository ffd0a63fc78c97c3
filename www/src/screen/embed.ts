// A calculator inside the page of a lesson: what its author fixed, and how tall
// the frame around it should be.

import type { Theme } from './theme'

export interface Embed {
  /** Where the frame is compact, the fields that can be changed: all others but those that are locked are hidden. */
  readonly open: readonly string[] | null
  /** Fields that are shown and cannot be changed. */
  readonly locked: readonly string[]
  /** Fields that are not shown, and count with their values all the same. */
  readonly hidden: readonly string[]
  /** Whether the working is open at first. */
  readonly working: boolean
  readonly theme: Theme
}

/** With all of these fields hidden that a compact frame does not name; as it is where it is not compact. */
export function withHidden(embed: Embed, fields: readonly string[]): Embed {
  const { open, locked, hidden } = embed
  if (open === null) return embed
  return { ...embed, hidden: [...hidden, ...fields.filter(id => ![...open, ...locked, ...hidden].includes(id))] }
}

export function isFixed(embed: Embed | null, field: string): boolean {
  return embed !== null && (embed.locked.includes(field) || embed.hidden.includes(field))
}

export function isHidden(embed: Embed | null, field: string): boolean {
  return embed !== null && embed.hidden.includes(field)
}

/** Whether the link of a screen may be passed on: it tells what a lesson hides. */
export function mayTell(embed: Embed | null): boolean {
  return embed === null || embed.hidden.length === 0
}

/** The message that tells the page around a frame how tall the calculator is. */
export interface HeightMessage {
  readonly type: 'stageohm:height'
  /** In CSS pixels. */
  readonly height: number
}

/** Tells the page around this frame the height, whenever it changes. */
export function reportHeight(page: Element): void {
  if (window.parent === window) return
  new ResizeObserver(() => {
    const message: HeightMessage = { type: 'stageohm:height', height: Math.ceil(page.getBoundingClientRect().height) }
    // A height is nobody's secret, and whose page this is cannot be known.
    window.parent.postMessage(message, '*')
  }).observe(page)
}
