import { useRef } from 'preact/hooks'
import type { Face, FaceContact, Leg } from '../../generated/contract'
import { SaveDrawing } from './save-drawing'

/** Half the width of a round face, and the half length of a plug, in the drawing's units. */
const ROUND = 60
const LONG = 130

/** What each contact carries in a wiring, by its identifier. */
export type Carried = ReadonlyMap<string, { readonly leg: Leg | null; readonly role: string }>

/** Signs that tell the legs apart without a colour. */
export const SIGNS: Readonly<Record<Leg, string>> = { hot: '+', cold: '\u2212' }

interface Properties {
  readonly face: Face
  readonly carried?: Carried
  /** In the name of its file. */
  readonly file: string
}

/** How large it is in a file of its own. */
const SAVED = 3

/** A plug or socket as one sees it, with its contacts named. */
export function FaceView({ face: { name, shape, contacts }, carried, file }: Properties) {
  const drawing = useRef<SVGSVGElement>(null)
  const told = contacts.map(({ id, name }) => [name, carried?.get(id)?.role].filter(Boolean).join(': ')).join(', ')
  const plug = shape === 'plug'
  return (
    <figure class="face">
      <svg
        ref={drawing}
        data-shape={shape}
        viewBox={plug ? '-140 -44 280 88' : '-70 -70 140 140'}
        role="img"
        aria-label={`${name}. ${told}`}
      >
        {plug ? (
          <Plug contacts={contacts} carried={carried} />
        ) : (
          <Round shape={shape} contacts={contacts} carried={carried} />
        )}
      </svg>
      <figcaption>{name}</figcaption>
      <SaveDrawing drawing={drawing} title={name} summary={told} file={file} scale={SAVED} small />
    </figure>
  )
}

interface Drawn {
  readonly contacts: readonly FaceContact[]
  readonly carried: Carried | undefined
}

function signOf(carried: Carried | undefined, id: string): string {
  const leg = carried?.get(id)?.leg
  return leg ? SIGNS[leg] : ''
}

function Round({ shape, contacts, carried }: Drawn & Pick<Face, 'shape'>) {
  return (
    <>
      <circle class="body" r={ROUND} />
      {shape === 'coaxial' ? (
        <circle class="body" r={0.48 * ROUND} />
      ) : (
        // The key that lets the plug in one way only.
        <path class="key" d={`M-9 ${-ROUND}v10h18v-10`} />
      )}
      {contacts.map(({ id, label, at: [x, y] }) => (
        <g key={label} transform={`translate(${x * ROUND} ${y * ROUND})`}>
          {shape !== 'coaxial' && (
            <circle class={shape === 'pins' ? 'pin' : 'hole'} data-leg={carried?.get(id)?.leg ?? undefined} r="14" />
          )}
          <text dy="0.35em" class={shape === 'pins' ? 'on-pin' : ''}>
            {label}
          </text>
          {signOf(carried, id) !== '' && (
            <text
              class="sign"
              x={shape === 'coaxial' ? 0 : x > 0 ? -23 : 23}
              y={shape === 'coaxial' ? -16 : 0}
              dy="0.35em"
            >
              {signOf(carried, id)}
            </text>
          )}
        </g>
      ))}
    </>
  )
}

/** The tip first, then as many rings as there are contacts, the sleeve last and longest. */
function Plug({ contacts, carried }: Drawn) {
  const ring = 44
  const tip = 56
  const starts = contacts.map((_, index) => -LONG + (index === 0 ? 0 : tip + (index - 1) * ring))
  return (
    <>
      {contacts.map(({ id, label }, index) => {
        const from = (starts[index] ?? 0) + (index === 0 ? 0 : 4)
        const to = starts[index + 1] ?? LONG
        const body =
          index === 0
            ? `M${from} 0q0-14 14-16H${to}V16H${from + 14}q-14-2-14-16z`
            : index < contacts.length - 1
              ? `M${from}-16H${to}V16H${from}z`
              : `M${from}-16H${to - 70}V-28H${to}V28H${to - 70}V16H${from}z`
        const middle = index === contacts.length - 1 ? (from + to - 70) / 2 : (from + to) / 2
        return (
          <g key={label}>
            <path class="body" d={body} />
            <text x={middle} dy="0.35em">
              {label}
            </text>
            {signOf(carried, id) !== '' && (
              <text class="sign" x={middle} y={36}>
                {signOf(carried, id)}
              </text>
            )}
          </g>
        )
      })}
    </>
  )
}
