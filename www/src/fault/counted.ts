// What this device has counted of causes, and how common its reader takes them to be.

import { isRecord, keepChoice, load } from '../base/kept'
import { getState, isEmbedded } from '../screen/store'
import { MOST_TIMES } from './address'

type Numbers = Readonly<Record<string, number>>

/** Under these keys they lie in this browser. */
const [COUNTED, TIMES] = ['faults', 'fault-odds']
/** More faults than this nobody finds. */
const MOST_COUNTED = 10_000

/** How often each cause was the one, on this device. */
export function countedHere(): Numbers {
  return numbersOf(COUNTED, MOST_COUNTED)
}

/** How many times as common as judged its reader takes them to be. */
export function timesHere(): Numbers {
  return numbersOf(TIMES, MOST_TIMES)
}

/** Counts a cause once more, or takes that back. */
export function count(cause: string, by: 1 | -1): void {
  const counted = countedHere()
  keepChoice(COUNTED, without({ ...counted, [cause]: Math.max(0, (counted[cause] ?? 0) + by) }, 0))
}

export function forgetCounted(): void {
  keepChoice(COUNTED, {})
}

export function keepTimes(times: Numbers): void {
  // A lesson keeps nothing.
  if (!isEmbedded(getState())) keepChoice(TIMES, times)
}

/** Those that say something. */
export function without(numbers: Numbers, usual: number): Numbers {
  return Object.fromEntries(Object.entries(numbers).filter(([, number]) => number !== usual))
}

function numbersOf(key: string, most: number): Numbers {
  if (isEmbedded(getState())) return {}
  const good = Object.entries(load(key, isRecord) ?? {}).flatMap(([cause, number]) =>
    typeof number === 'number' && number >= 0 && number <= most ? [[cause, number] as const] : [],
  )
  return Object.fromEntries(good)
}
