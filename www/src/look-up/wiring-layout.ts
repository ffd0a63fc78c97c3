// Where the ends of a wiring stand in its drawing, and their contacts in them.

import type { At, Wiring } from '../../generated/contract'

const ROW = 46
/** Room for the two lines that name an end. */
const HEAD = 46
/** Room under an end. */
const FOOT = 6

export interface PlacedEnd {
  readonly top: number
  readonly bottom: number
  /** How far down each contact is. */
  readonly rows: readonly number[]
}

interface Placed {
  readonly ends: readonly PlacedEnd[]
  readonly height: number
}

type Rows = ReadonlyMap<string, number>

/** What a conductor that does not run straight costs, in rows of the drawing. */
const SLANT = 1.5

/**
 * The ends of each side one under the other. Contacts stand level with what
 * they are joined to as far as their order allows, where that is worth its room.
 */
export function placeEnds(wiring: Wiring): Placed {
  let last = placeBoth(wiring, new Map())
  let best = last
  for (const far of [true, false, true]) {
    last = placeBoth(wiring, rowsOf(wiring, last), far)
    if (costOf(wiring, last) < costOf(wiring, best)) best = last
  }
  return best
}

/** With the contacts of one side level with their mates on the other, whose rows are given. */
function placeBoth(wiring: Wiring, rows: Rows, levelled?: boolean): Placed {
  const ends: PlacedEnd[] = []
  let height = 0
  for (const side of [false, true]) {
    let y = 0
    wiring.ends.forEach(({ far, contacts }, end) => {
      if (far !== side) return
      const top = y + HEAD
      let next = top + ROW / 2
      const placed = contacts.map(({ id }) => {
        const at = { end, contact: id }
        const wanted =
          far === levelled ? matesOf(wiring, at).map(mate => rows.get(keyOf(mate)) ?? 0) : [rows.get(keyOf(at)) ?? 0]
        const row = Math.max(next, wanted.find(row => row >= next) ?? next)
        next = row + ROW
        return row
      })
      y = next - ROW / 2
      ends[end] = { top, bottom: y, rows: placed }
      height = Math.max(height, y + FOOT)
    })
  }
  return { ends, height }
}

function matesOf({ connections }: Wiring, at: At): At[] {
  return connections
    .filter(({ from, to }) => from.end !== to.end)
    .flatMap(({ from, to }) => (keyOf(from) === keyOf(at) ? [to] : keyOf(to) === keyOf(at) ? [from] : []))
}

function rowsOf(wiring: Wiring, { ends }: Placed): Rows {
  return new Map(
    wiring.ends.flatMap(({ contacts }, end) =>
      contacts.map(({ id }, row) => [keyOf({ end, contact: id }), ends[end]?.rows[row] ?? 0] as const),
    ),
  )
}

function costOf(wiring: Wiring, placed: Placed): number {
  const rows = rowsOf(wiring, placed)
  const slanted = wiring.connections.filter(
    ({ from, to }) => from.end !== to.end && rows.get(keyOf(from)) !== rows.get(keyOf(to)),
  )
  return placed.height + SLANT * ROW * slanted.length
}

export function keyOf({ end, contact }: At): string {
  return `${end} ${contact}`
}
