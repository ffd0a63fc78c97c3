// What is drawn over and over, as text of paths, so that all of a kind is one element.
// The symbols are after IEC 60617 and IEC 60417 (from memory).

import type { EquipmentPower, LinkEnds as Ends } from '../../../generated/contract'
import type { Box, Point } from './layout'

/** How a shield ends: a gap; windings that meet; light between; waves. */
const SHIELDS: Readonly<Record<Ends, string>> = {
  both: '',
  one: 'm-4-4v8m8-8v8',
  none: 'm-4-4v8m8-8v8',
  transformer: 'm-6.500 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0m5 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0',
  optical: 'm-6-4v8l5-4zm12 0v8m-6-6l4-2l-2-.500m-2 6.500l4-2',
  radio: 'm-6-4l2 4l-2 4m5-8l2 4l-2 4m5-8l2 4l-2 4',
}

/** An earth, a box in a box for double insulation, a cell. */
const POWERS: Readonly<Record<EquipmentPower, string>> = {
  earthed: 'm0-8v7m-8 0h16m-13 4h10m-7 4h4',
  insulated: 'm-7-7h14v14h-14zm3.500 3.500h7v7h-7z',
  battery: 'm-9 0h7m0-8v16m4-12v8m0-4h7',
}

export function shieldMark(ends: Ends, at: Point): string {
  return `${moved(at)}${SHIELDS[ends]}`
}

/** What hides the wire under it. */
export function shieldCover(ends: Ends, at: Point): string {
  return `${moved(at)}${ends === 'one' || ends === 'none' ? 'm-4-3h8v6h-8z' : 'm-7-4h14v8h-14z'}`
}

export function powerMark(power: EquipmentPower, at: Point): string {
  return `${moved(at)}${POWERS[power]}`
}

/** The earth itself. */
export function earthMark(at: Point): string {
  return `${moved(at)}m0-14v14m-14 0h28m-23 6h18m-13 6h8`
}

/** A voltage, within a circle over its conductor. */
export function sourceMark(at: Point): string {
  return `${dotMark(at, 11)}${moved(at)}m-6 0q3-7 6 0t6 0`
}

export function dotMark([x, y]: Point, r: number): string {
  return `M${tenth(x - r)} ${tenth(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0${-2 * r} 0`
}

/** A box with round corners. */
export function boxPath({ x, y, width, height }: Box, r: number): string {
  const [along, down] = [tenth(width - 2 * r), tenth(height - 2 * r)]
  const turn = (dx: number, dy: number) => `a${r} ${r} 0 0 1 ${dx} ${dy}`
  return `M${tenth(x + r)} ${tenth(y)}h${along}${turn(r, r)}v${down}${turn(-r, r)}h${-along}${turn(-r, -r)}v${-down}${turn(r, -r)}z`
}

/** A way with round corners. */
export function wayPath(way: readonly Point[]): string {
  let path = ''
  for (const [index, [x, y]] of way.entries()) {
    const [before, after] = [way[index - 1], way[index + 1]]
    if (before === undefined || after === undefined) {
      path += `${before === undefined ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`
      continue
    }
    const [from, to] = [toward([x, y], before), toward([x, y], after)]
    path += `L${tenth(from[0])} ${tenth(from[1])}Q${tenth(x)} ${tenth(y)} ${tenth(to[0])} ${tenth(to[1])}`
  }
  return path
}

/** Where a corner begins to be round. */
function toward([x, y]: Point, [toX, toY]: Point): Point {
  const length = Math.hypot(toX - x, toY - y)
  const part = length === 0 ? 0 : Math.min(5, length / 2) / length
  return [x + (toX - x) * part, y + (toY - y) * part]
}

function moved([x, y]: Point): string {
  return `M${tenth(x)} ${tenth(y)}`
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10
}
