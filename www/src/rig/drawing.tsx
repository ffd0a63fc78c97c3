import { EarthView, SymbolView } from './symbols'
import type { Point } from '../plot/labels'
import type { Layout, PlacedLoop } from './layout'

interface Properties {
  readonly layout: Layout
  /** The picture in words. */
  readonly label: string
}

/** A rig as a line diagram. */
export function RigDrawing({ layout, label }: Properties) {
  const { width, height, down, wires, joints, parts, loops, letters, anchor } = layout
  return (
    <svg
      role="img"
      aria-label={label}
      class="diagram"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      style={{ fontSize: `${letters}px` }}
    >
      {loops.map((placed, index) => (
        <LoopView key={index} placed={placed} />
      ))}
      {parts.map(({ part, earth }) => earth && <path key={part.id} class="drawn thin" d={earth.lead} />)}
      {wires.map(wire => (
        <path key={wire} class="wire" d={wire} />
      ))}
      {joints.map((joint, index) => (
        <circle key={index} class="joint" cx={joint.x} cy={joint.y} r="4" />
      ))}
      {parts.map(({ part, x, y, earth }) => (
        <g key={part.id} data-part={part.id}>
          {earth && (
            <g transform={`translate(${earth.x} ${earth.y})`}>
              <EarthView earth={part.earth ?? 'earth'} />
            </g>
          )}
          {earth && part.earth === 'leakage' && <Leak earth={earth} from={{ x, y }} />}
          <g transform={`translate(${x} ${y})`}>
            <SymbolView symbol={part.symbol} down={down} />
          </g>
        </g>
      ))}
      {parts.map(({ part, lines }) => (
        <g key={part.id} text-anchor={part.branch ? 'start' : anchor}>
          {lines.map(({ text, bold, x, y }, index) => (
            <text key={index} class={bold ? 'name' : 'said'} x={x} y={y} dy="0.35em">
              {text}
            </text>
          ))}
        </g>
      ))}
    </svg>
  )
}

/** The capacitance by which a supply leaks, in the way to the earth. */
function Leak({ earth, from }: { readonly earth: Point; readonly from: Point }) {
  const down = earth.x === from.x
  const at = down ? { x: earth.x, y: earth.y - 20 } : { x: earth.x + 19, y: earth.y }
  return (
    <g transform={`translate(${at.x} ${at.y}) rotate(${down ? 0 : 90})`}>
      <rect class="cover" x="-8" y="-3" width="16" height="6" />
      <path class="drawn" d="M-8-3H8M-8 3H8" />
    </g>
  )
}

function LoopView({ placed: { shields, ground, drive, gap, lines } }: { readonly placed: PlacedLoop }) {
  return (
    <g class="loop" data-open={gap !== null}>
      <path class="around" d={shields} />
      <path class="around through" d={ground} />
      <circle class="filled" cx={drive.x} cy={drive.y} r="9" />
      <path class="drawn" d={`M${drive.x - 5} ${drive.y}q2.500-6 5 0t5 0`} />
      {gap !== null && <path class="drawn" d={`M${gap.x - 5} ${gap.y - 5}l10 10m0-10l-10 10`} />}
      {lines.map(({ text, x, y }, index) => (
        <text key={index} class="said" x={x} y={y} dy="0.35em">
          {text}
        </text>
      ))}
    </g>
  )
}
