import type { At, Connection, Wiring } from '../generated/contract'
import { say } from './words'

// In the drawing's units, which are pixels on a phone.
const WIDTH = 328
const ROW = 46
/** Room for the two lines that name an end. */
const HEAD = 44
const PLUG = 78
const CONTACT = 7
/** From a contact to where its conductor may turn. */
const STRAIGHT = 52

/** Where a contact stands in the drawing. */
interface Spot {
  readonly x: number
  readonly y: number
}

interface DrawnEnd {
  readonly index: number
  readonly far: boolean
  readonly top: number
  readonly bottom: number
  readonly rows: readonly number[]
}

/** A wiring as a drawing, and the same in words. */
export function WiringView({ wiring, title }: { readonly wiring: Wiring; readonly title: string }) {
  const { ends, height } = place(wiring)
  const spot = ({ end, contact }: At): Spot => {
    const drawn = ends[end]
    const at = wiring.ends[end]?.contacts.findIndex(({ id }) => id === contact) ?? 0
    return { x: drawn?.far ? WIDTH - PLUG : PLUG, y: drawn?.rows[at] ?? 0 }
  }
  return (
    <figure class="wiring">
      <svg
        viewBox={`0 0 ${WIDTH} ${height}`}
        role="img"
        aria-label={say('wiring-of', { title })}
        aria-describedby="wired"
      >
        {wiring.connections.map(connection => (
          <Conductor key={connection.text} connection={connection} wiring={wiring} spot={spot} />
        ))}
        {ends.map(({ index, far, top, bottom, rows }) => {
          const end = wiring.ends[index]
          const edge = far ? WIDTH - PLUG : PLUG
          const anchor = far ? 'end' : 'start'
          const outer = far ? WIDTH : 0
          return (
            <g key={index}>
              <text class="end" x={outer} y={top - 24} text-anchor={anchor}>
                {end?.name}
              </text>
              <text class="place" x={outer} y={top - 8} text-anchor={anchor}>
                {end?.place}
              </text>
              <rect class="plug" x={far ? edge : 1} y={top} width={PLUG - 1} height={bottom - top} rx="8" />
              {end?.contacts.map(({ id, name }, at) => (
                <g key={id}>
                  <text x={far ? edge + 14 : edge - 14} y={rows[at]} dy="0.35em" text-anchor={far ? 'start' : 'end'}>
                    {name}
                  </text>
                  <circle class="contact" cx={edge} cy={rows[at]} r={CONTACT} />
                </g>
              ))}
            </g>
          )
        })}
        {wiring.open.map(({ at, role, text }) => {
          const { x, y } = spot(at)
          const far = x > WIDTH / 2
          // Nothing else is written over a contact that a cut conductor comes near.
          return (
            <text key={text} class="role" x={far ? x - 12 : x + 12} y={y + 18} text-anchor={far ? 'end' : 'start'}>
              {role}
            </text>
          )
        })}
      </svg>
      <figcaption>
        <ul id="wired">
          {[...wiring.connections, ...wiring.open].map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </figcaption>
    </figure>
  )
}

/**
 * The ends of each side one under the other. Contacts of the far side stand
 * level with what they are joined to, as far as their order allows.
 */
function place(wiring: Wiring): { readonly ends: readonly DrawnEnd[]; readonly height: number } {
  const rows = new Map<string, number>()
  const key = (at: At) => `${at.end} ${at.contact}`
  const ends: DrawnEnd[] = []
  let height = 0
  for (const side of [false, true]) {
    let y = 0
    wiring.ends.forEach(({ far, contacts }, end) => {
      if (far !== side) return
      const top = y + HEAD
      let next = top + ROW / 2
      const placed = contacts.map(({ id }) => {
        const mates = wiring.connections.filter(
          ({ from, to }) => far && to.end === end && to.contact === id && from.end !== end,
        )
        const level = mates.map(({ from }) => rows.get(key(from)) ?? 0).find(row => row >= next)
        const row = level ?? next
        rows.set(key({ end, contact: id }), row)
        next = row + ROW
        return row
      })
      y = next - ROW / 2
      ends[end] = { index: end, far, top, bottom: y, rows: placed }
      height = Math.max(height, y)
    })
  }
  return { ends, height: height + 4 }
}

interface Properties {
  readonly connection: Connection
  readonly wiring: Wiring
  readonly spot: (at: At) => Spot
}

function Conductor({ connection, wiring, spot }: Properties) {
  const { from, to, shield, cut, role, through } = connection
  const start = spot(from)
  const end = spot(to)
  const style = shield ? 'conductor shield' : 'conductor'
  if (from.end === to.end) {
    const out = start.x < WIDTH / 2 ? 26 : -26
    return (
      <>
        <path class={style} d={`M${start.x} ${start.y}h${out}V${end.y}H${end.x}`} />
        <text
          class="role"
          x={start.x + 1.35 * out}
          y={(start.y + end.y) / 2}
          dy="0.35em"
          text-anchor={out > 0 ? 'start' : 'end'}
        >
          {role}
        </text>
      </>
    )
  }
  // Where several conductors leave one contact, what each carries is written where they end.
  const several = wiring.connections.filter(
    ({ from: other }) => other.end === from.end && other.contact === from.contact,
  )
  const named = several.length > 1 ? end : start
  const stop = cut ? end.x - STRAIGHT / 2 : end.x
  return (
    <>
      <path
        class={style}
        d={`M${start.x} ${start.y}h${STRAIGHT}L${end.x - STRAIGHT} ${end.y}H${stop}${cut ? 'm0-9v18' : ''}`}
      />
      {through !== null && (
        <>
          <rect class="resistor" x={start.x + 12} y={start.y - 7} width="34" height="14" />
          <text class="role" x={start.x + 29} y={start.y + 21} text-anchor="middle">
            {through}
          </text>
        </>
      )}
      <text
        class="role"
        x={named === start ? start.x + 12 : end.x - 12}
        y={named.y - 11}
        text-anchor={named === start ? 'start' : 'end'}
      >
        {role}
      </text>
    </>
  )
}
