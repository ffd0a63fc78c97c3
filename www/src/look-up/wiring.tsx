import { useRef } from 'preact/hooks'
import type { At, Connection, Wiring } from '../../generated/contract'
import { FaceView, SIGNS, type Carried } from './face'
import { keyOf, placeEnds, type PlacedEnd } from './wiring-layout'
import { SaveDrawing } from './save-drawing'
import { say } from '../base/words'

// In the drawing's units, which are pixels on a phone.
const WIDTH = 328
const PLUG = 78
const CONTACT = 7
/** How far a conductor runs level on the side where its name is written, and on the other. */
const NAMED = 100
const UNNAMED = 32
/** How far before a contact a conductor ends that does not reach it. */
const GAP = 36
/** Between a conductor and its name, and between the name and a contact. */
const ABOVE = 10
const BESIDE = 12
/** How large it is in a file of its own: 800 pixels wide. */
const SAVED = 2.5

interface Point {
  readonly x: number
  readonly y: number
}

interface Spot extends Point {
  /** To where the drawing is: +1 from a contact on the left, −1 from one on the right. */
  readonly inwards: 1 | -1
}

type Locate = (at: At) => Spot

interface Properties {
  readonly wiring: Wiring
  readonly title: string
  /** In the name of its file. */
  readonly file: string
}

/** A wiring as a drawing, and the same in words. */
export function WiringView({ wiring, title, file }: Properties) {
  const drawing = useRef<SVGSVGElement>(null)
  const { ends, height } = placeEnds(wiring)
  const spot = ({ end, contact }: At): Spot => {
    const far = wiring.ends[end]?.far === true
    const row = wiring.ends[end]?.contacts.findIndex(({ id }) => id === contact) ?? 0
    return { x: far ? WIDTH - PLUG : PLUG, y: ends[end]?.rows[row] ?? 0, inwards: far ? -1 : 1 }
  }
  const told = [...wiring.connections, ...wiring.open].map(({ text }) => text)
  const drawn = wiring.connections.map(connection => courseOf(connection, wiring, spot))
  return (
    <>
      <figure class="wiring">
        <svg
          ref={drawing}
          viewBox={`0 0 ${WIDTH} ${height}`}
          role="img"
          aria-label={say('wiring-of', { title })}
          aria-describedby="wired"
        >
          {drawn.map(({ connection: { text, shield, leg }, path }) => (
            <path key={text} class={shield ? 'conductor shield' : 'conductor'} data-leg={leg ?? undefined} d={path} />
          ))}
          {drawn.map(({ connection: { text, role, leg, through }, name, told, joint, stop }) => (
            <g key={text}>
              {joint !== null && <circle class="joint" cx={joint.x} cy={joint.y} r="4.5" />}
              {stop !== null && <path class="conductor" d={`M${stop.x} ${stop.y - 8}v16`} />}
              {told && <Name at={name}>{leg === null ? role : `${SIGNS[leg]} ${role}`}</Name>}
              {through !== null && <Resistor at={name}>{through}</Resistor>}
            </g>
          ))}
          {wiring.ends.map((end, index) => {
            const placed = ends[index]
            return placed && <End key={index} end={end} placed={placed} />
          })}
          {wiring.open.map(({ at, role, text }) => {
            const { x, y, inwards } = spot(at)
            const near = wiring.connections.some(({ to }) => keyOf(to) === keyOf(at))
            return (
              <Name key={text} at={{ x: x + BESIDE * inwards, y: y + (near ? 20 : 4), inwards }}>
                {role}
              </Name>
            )
          })}
        </svg>
        <figcaption>
          <ul id="wired">
            {told.map(text => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </figcaption>
        <SaveDrawing drawing={drawing} title={title} summary={told.join(' ')} file={file} scale={SAVED} />
      </figure>
      <Solders wiring={wiring} file={file} />
    </>
  )
}

/** The ends as whoever solders them sees them. */
function Solders({ wiring, file }: Omit<Properties, 'title'>) {
  const faces = wiring.ends.flatMap(({ face, place }, index) => (face === null ? [] : [{ face, place, index }]))
  return (
    <div class="faces">
      {faces.map(({ face, place, index }) => (
        <FaceView
          key={index}
          face={{ ...face, name: `${face.name}, ${place}` }}
          carried={carriedAt(wiring, index)}
          file={`${file}-${index + 1}`}
        />
      ))}
    </div>
  )
}

function carriedAt({ connections, open }: Wiring, index: number): Carried {
  const joined = connections.flatMap(({ from, to, leg, role }) =>
    [from, to].filter(({ end }) => end === index).map(({ contact }) => [contact, { leg, role }] as const),
  )
  const idle = open
    .filter(({ at }) => at.end === index)
    .map(({ at, role }) => [at.contact, { leg: null, role }] as const)
  // What a conductor carries goes before a bridge to it.
  return new Map([...idle, ...joined.reverse()])
}

function End({ end, placed }: { readonly end: Wiring['ends'][number]; readonly placed: PlacedEnd }) {
  const { far, name, place, contacts } = end
  const { top, bottom, rows } = placed
  const edge = far ? WIDTH - PLUG : PLUG
  const outer = far ? WIDTH - 1 : 1
  const outside = far ? 'end' : 'start'
  return (
    <>
      <text class="end" x={outer} y={top - 24} text-anchor={outside}>
        {name}
      </text>
      <text class="place" x={outer} y={top - 8} text-anchor={outside}>
        {place}
      </text>
      <rect class="plug" x={far ? edge : 1} y={top} width={PLUG - 1} height={bottom - top} rx="8" />
      {contacts.map(({ id, name }, at) => (
        <g key={id}>
          <text x={far ? edge + 14 : edge - 14} y={rows[at]} dy="0.35em" text-anchor={far ? 'start' : 'end'}>
            {name}
          </text>
          <circle class="contact" cx={edge} cy={rows[at]} r={CONTACT} />
        </g>
      ))}
    </>
  )
}

function Name({ at: { x, y, inwards }, children }: { readonly at: Spot; readonly children: string }) {
  return (
    <text class="role" x={x} y={y} text-anchor={inwards > 0 ? 'start' : 'end'}>
      {children}
    </text>
  )
}

/** Behind the name of its conductor, which is short. */
function Resistor({ at: { x, y, inwards }, children }: { readonly at: Spot; readonly children: string }) {
  const middle = x + 64 * inwards
  return (
    <>
      <rect class="resistor" x={middle - 16} y={y + ABOVE - 6} width="32" height="12" />
      <text class="role" x={middle} y={y} text-anchor="middle">
        {children}
      </text>
    </>
  )
}

interface Course {
  readonly connection: Connection
  readonly path: string
  /** Where its name stands, or would if another conductor did not bear it for both. */
  readonly name: Spot
  readonly told: boolean
  /** Where it meets another conductor. */
  readonly joint: Point | null
  /** Where it ends, if it does not reach its contact. */
  readonly stop: Point | null
}

function courseOf(connection: Connection, { connections }: Wiring, spot: Locate): Course {
  const { from, to, cut, role } = connection
  const start = spot(from)
  const end = spot(to)
  if (from.end === to.end) return bridgeOf(connection, start, end)
  const across = connections.filter(({ from, to }) => from.end !== to.end)
  const leaving = across.filter(other => keyOf(other.from) === keyOf(from))
  const arriving = across.filter(other => keyOf(other.to) === keyOf(to))
  // Where conductors of different names leave one contact, each has its name
  // where it ends; those of one name share it.
  const apart = leaving.some(other => other.role !== role)
  const [first, last] = apart ? [UNNAMED, NAMED] : [NAMED, UNNAMED]
  const named = apart ? end : start
  const turn = { x: start.x + first, y: start.y }
  const back = { x: end.x - (cut ? GAP : last), y: end.y }
  const slanted = start.y !== end.y
  return {
    connection,
    path: `M${start.x} ${start.y}H${turn.x}L${back.x} ${back.y}${cut ? '' : `H${end.x}`}`,
    name: { ...named, x: named.x + BESIDE * named.inwards, y: named.y - ABOVE },
    told: apart || leaving[0] === connection,
    joint: slanted && arriving.length > 1 ? back : slanted && leaving.length > 1 ? turn : null,
    stop: cut ? back : null,
  }
}

/** Between two contacts of one plug, around to the inner side. */
function bridgeOf(connection: Connection, start: Spot, end: Spot): Course {
  const out = 24 * start.inwards
  return {
    connection,
    path: `M${start.x} ${start.y}h${out}V${end.y}h${-out}`,
    name: { ...start, x: start.x + 1.35 * out, y: start.y + 4 },
    told: true,
    joint: null,
    stop: null,
  }
}
