// By what the text of a lesson is known, beside its name: FNV-1a of 64 bits over its JSON
// with the keys in order. It tells copies that were changed, and proves nothing.

import { isRecord } from '../base/shape'

const START = [0xcbf29ce4, 0x84222325] as const
/** The prime is 2^40 and this. */
const PRIME = 0x1b3

/** The hash of the text of a lesson, whatever the order of its keys. */
export function textOf(file: unknown): string {
  return fnv(JSON.stringify(file, (_, value: unknown) => (isRecord(value) ? inOrder(value) : value)) ?? '')
}

function inOrder(value: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
}

/** In two halves: no number of 64 bits is whole here. */
export function fnv(text: string): string {
  let [high, low]: readonly [number, number] = START
  for (const byte of new TextEncoder().encode(text)) {
    low = (low ^ byte) >>> 0
    const product = low * PRIME
    high = (Math.imul(high, PRIME) + Math.floor(product / 2 ** 32) + (low << 8)) >>> 0
    low = product >>> 0
  }
  return [high, low].map(half => half.toString(16).padStart(8, '0')).join('')
}
