// An answer as the data models of the standards have it. SCORM 2004 and xAPI write it in
// the same way, SCORM 1.2 in an older one.

import type { Answer, Order } from './messages'
import { decimal } from './named'

export interface Interaction<Type extends string> {
  readonly type: Type
  readonly response: string
  /** What is right: one of these. */
  readonly patterns: readonly string[]
}

/** So many right orders every learning system by SCORM 2004 takes. */
const MOST_ORDERS = 5
/** SCORM 1.2 names what is put in order by single characters. */
const CHARACTERS = 'abcdefghijklmnopqrstuvwxyz0123456789'

export function interaction12(answer: Answer): Interaction<'numeric' | 'sequencing' | 'fill-in'> {
  const { response, right, number, order } = answer
  if (number !== null)
    return { type: 'numeric', response: decimal(number.said), patterns: number.right.slice(0, 1).map(decimal) }
  if (order !== null && order.ways.length <= CHARACTERS.length) {
    const lettered = (ids: readonly string[]) => ids.map(id => letterOf(order, id)).join(',')
    return { type: 'sequencing', response: lettered(order.said), patterns: rightOrders(order).map(lettered) }
  }
  return { type: 'fill-in', response, patterns: wordsOf(right) }
}

export function interaction({
  response,
  right,
  number,
  order,
}: Answer): Interaction<'numeric' | 'sequencing' | 'other'> {
  if (number !== null) {
    const [value, from = value, to = value] = number.right.map(decimal)
    const patterns = value === undefined ? [] : [`${from}[:]${to}`]
    return { type: 'numeric', response: decimal(number.said), patterns }
  }
  if (order !== null) {
    const listed = (ids: readonly string[]) => ids.join('[,]')
    return { type: 'sequencing', response: listed(order.said), patterns: rightOrders(order).map(listed) }
  }
  return { type: 'other', response, patterns: wordsOf(right) }
}

/** What is right in words; nothing where nothing is. */
function wordsOf(right: string): readonly string[] {
  return right === '' ? [] : [right]
}

function letterOf({ ways }: Order, id: string): string {
  return CHARACTERS[ways.findIndex(way => way.id === id)] ?? ''
}

/** The right orders; of ways that are tied each may come first. */
function rightOrders({ right }: Order): readonly (readonly string[])[] {
  const orders = []
  for (const order of ordersOf(right)) {
    orders.push(order)
    if (orders.length === MOST_ORDERS) break
  }
  return orders
}

function* ordersOf([tied, ...rest]: readonly (readonly string[])[]): Generator<readonly string[]> {
  if (tied === undefined) return yield []
  for (const first of turnsOf(tied)) for (const then of ordersOf(rest)) yield [...first, ...then]
}

function* turnsOf(tied: readonly string[]): Generator<readonly string[]> {
  if (tied.length === 0) yield []
  for (const first of tied) for (const then of turnsOf(tied.filter(other => other !== first))) yield [first, ...then]
}
