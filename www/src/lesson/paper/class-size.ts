// For how many learners sheets are printed: the same for worksheets and answer sheets.

import { keep, loadList } from '../../base/kept'

const KEY = 'lesson-class'
/** A class has at most so many. */
export const MOST = 40

/** 1 for one sheet. */
export function classSize(): number {
  const [count = 1] = loadList(KEY, isCount)
  return count
}

export function keepClassSize(count: number): void {
  keep(KEY, [count])
}

export function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= MOST
}
