// What is kept of a show, and how: as a text with a number and a checksum.

import type { Show } from '../../../generated/contract'
import { isRecord, isText } from '../../base/shape'
import { checksum } from './checksum'
import type { Step } from './project'

/** When a show was last saved to a file, and how often it was changed since. */
export interface Saved {
  /** As `Date.now` has it. */
  readonly at: number
  readonly changes: number
}

/** A show with all that belongs to it. */
export interface Kept {
  readonly show: Show
  readonly done: readonly Step[]
  readonly undone: readonly Step[]
  readonly changed: number
  /** Nothing where it never was. */
  readonly saved: Saved | null
}

/** Which state of a show it is; two tabs may give the same number, not the same checksum too. */
export interface Stamp {
  readonly number: number
  readonly check: string
}

export interface Slot extends Stamp {
  readonly id: string
  /** Even and odd numbers take turns, so that writing one leaves the other alone. */
  readonly place: number
  readonly text: string
}

export function slotOf(id: string, number: number, kept: Kept): Slot {
  const text = JSON.stringify(kept)
  return { id, number, place: number % 2, text, check: checkOf(number, text) }
}

function checkOf(number: number, text: string): string {
  return checksum(`${number} ${text}`)
}

export function isSame(one: Stamp, other: Stamp): boolean {
  return one.number === other.number && one.check === other.check
}

/** Whether a slot is as it was written. */
export function isWhole(slot: unknown): slot is Slot {
  if (!isRecord(slot)) return false
  const { id, number, text, check } = slot
  return isText(id) && typeof number === 'number' && isText(text) && check === checkOf(number, text)
}

/** What a slot keeps; nothing where it is damaged, or another version of the page wrote it. */
export function keptOf(slot: unknown): Kept | null {
  return isWhole(slot) ? readKept(slot.text) : null
}

function readKept(text: string): Kept | null {
  try {
    const kept: unknown = JSON.parse(text)
    return isKept(kept) ? kept : null
  } catch {
    return null
  }
}

export function isKept(kept: unknown): kept is Kept {
  if (!isRecord(kept)) return false
  const { show, done, undone, changed, saved } = kept
  return (
    isShow(show) &&
    [done, undone].every(steps => Array.isArray(steps) && steps.every(isStep)) &&
    typeof changed === 'number' &&
    (saved === null || (isRecord(saved) && typeof saved['at'] === 'number' && typeof saved['changes'] === 'number'))
  )
}

/** Whether it is a show as this page writes it; any other is read as a file. */
function isShow(show: unknown): boolean {
  if (!isRecord(show)) return false
  const lists = ['gear', 'power', 'equipment', 'links', 'lines'].map(list => show[list])
  const rows = lists.every(list => Array.isArray(list) && list.every(row => isRecord(row) && isText(row['id'])))
  return show['version'] === 1 && isText(show['name']) && isText(show['notes']) && isRecord(show['limits']) && rows
}

function isStep(step: unknown): boolean {
  return isRecord(step) && isText(step['what']) && Array.isArray(step['patches']) && Array.isArray(step['inverse'])
}
