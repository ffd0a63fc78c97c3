// Rigs that the reader gave a name: screens that this device keeps until they are removed.

import { language } from '../base/language'
import { isText, keep, loadList } from '../base/kept'
import { isLong } from '../base/limit'
import { isVisit, type Visit } from './at-hand'

export interface Rig extends Visit {
  readonly name: string
}

/** In characters; a name has to fit on a button of a phone, in some lines. */
export const LONGEST_NAME = 60
const KEY = 'rigs'
/** A sign that is seen: neither control, format nor blank. */
const SEEN = /[^\p{Cc}\p{Cf}\p{Z}\p{Default_Ignorable_Code_Point}\u2800]/u

/** The name that is meant by what was typed; empty where nothing of it is seen. */
export function nameOf(typed: string): string {
  const name = typed.replace(/\p{Cc}+/gu, ' ').trim()
  return SEEN.test(name) ? name : ''
}

/** All of them, by name. */
export function rigs(): Rig[] {
  return kept()
    .filter(({ hash }) => !isLong(hash))
    .sort((a, b) => a.name.localeCompare(b.name, language))
}

export function rigOf(name: string): Rig | undefined {
  return rigs().find(rig => rig.name === name)
}

/** Keeps a rig, in the place of one of the same name; answers whether the browser took it. */
export function keepRig(rig: Rig): boolean {
  return keep(KEY, [...without(rig.name), rig])
}

/** Gives a rig another name; answers as `keepRig`. */
export function renameRig(rig: Rig, name: string): boolean {
  return keep(KEY, [...without(rig.name).filter(other => other.name !== name), { ...rig, name }])
}

/** Answers as `keepRig`. */
export function removeRig({ name }: Rig): boolean {
  return keep(KEY, without(name))
}

/** Those too that are too long to be read here, which another version may read. */
function kept(): Rig[] {
  return loadList(KEY, isRig)
}

/** Read anew each time: another tab may have kept one since. */
function without(name: string): Rig[] {
  return kept().filter(rig => rig.name !== name)
}

function isRig(value: unknown): value is Rig {
  return isVisit(value) && 'name' in value && isText(value.name)
}
