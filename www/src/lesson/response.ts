// A response as it comes back from where it was kept: in runs, in what a learning system
// keeps, and in results.

import type { LessonResponse } from '../../generated/contract'
import { areTexts, isRecord, isText } from '../base/shape'

export const NO_RESPONSE: LessonResponse = {
  text: '',
  decade: null,
  curve: [],
  parts: {},
  measured: [],
  case: null,
  order: [],
  heard: [],
  seen: null,
  sure: null,
  hints: 0,
}

/** No place in a list and no power of ten is beyond it. */
const MOST = 2 ** 31 - 1

const SHAPE: { readonly [Key in keyof LessonResponse]: (value: unknown) => boolean } = {
  text: isText,
  decade: value => value === null || isWhole(value, -MOST),
  curve: value => Array.isArray(value) && value.every(isPoint),
  parts: value => isRecord(value) && Object.values(value).every(isText),
  measured: areTexts,
  case: value => value === null || isWhole(value, 0),
  order: areTexts,
  heard: value => Array.isArray(value) && value.every(one => one === 'a' || one === 'b' || one === 'skip'),
  seen: value => value === null || value === 'first' || value === 'second' || value === 'alike',
  sure: value => value === null || value === 1 || value === 2 || value === 3,
  hints: value => isWhole(value, 0),
}

/** The whole of a response of which only what says something was kept; nothing where it is none. */
export function responseOf(value: unknown): LessonResponse | null {
  if (!isRecord(value)) return null
  const said = Object.keys(SHAPE)
    .filter(key => Object.hasOwn(value, key))
    .map(key => [key, value[key]] as const)
  const isGood = said.every(([key, one]) => SHAPE[key as keyof LessonResponse](one))
  return isGood ? { ...NO_RESPONSE, ...(Object.fromEntries(said) as Partial<LessonResponse>) } : null
}

function isPoint(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every(Number.isFinite)
}

function isWhole(value: unknown, least: number): boolean {
  return typeof value === 'number' && Number.isInteger(value) && value >= least && value <= MOST
}
