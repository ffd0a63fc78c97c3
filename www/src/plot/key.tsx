// The key under a plot, where names have no room beside the curves or no place at
// them. It is part of the drawing, so that pictures and paper have it too.

import type { Plot, Settings } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { widthOf, wrapped } from './measure'
import { heightAt, isUpright } from './trace'
import { print } from '../base/unit'
import { say } from '../base/words'

export interface Entry {
  readonly key: string
  /** What the curve is marked with; empty where its look is enough. */
  readonly tag: string
  readonly curve: Curve | null
  readonly lines: readonly string[]
}

interface Placed extends Entry {
  readonly x: number
  readonly y: number
}

export interface Layout {
  readonly entries: readonly Placed[]
  readonly height: number
}

/** In lines: a row, the drawn piece of a curve, a tag, and the room between entries. */
const ROW = 1.35
const PIECE = 2.2
const TAG = 1.5
const GAP = 1.2

/** What the key says, entry by entry. */
export function entriesOf(
  plot: Plot,
  curves: readonly Curve[],
  frame: Frame,
  tagged: boolean,
  settings: Settings,
): Entry[] {
  const at = plot.key_at
  const entries = curves.map((curve, index) => {
    const height = at === null || isUpright(curve.trace) ? NaN : heightAt(curve.trace, at, plot.x)
    const value = Number.isFinite(height) ? `: ${print(height, frame.yPrinting, settings)}` : ''
    return { key: curve.key, tag: tagged ? `${index + 1}` : '', curve, lines: [`${curve.lines.join(', ')}${value}`] }
  })
  if (at === null) return entries
  return [{ key: 'at', tag: '', curve: null, lines: [say('plot-key-at', { place: frame.where(at) })] }, ...entries]
}

/** Where the entries stand: one after the other, and on in the next row. */
export function layKey(entries: readonly Entry[], { width, height }: Frame, line: number): Layout {
  const placed: Placed[] = []
  let [x, y] = [0, height + 0.3 * line]
  for (const entry of entries) {
    const before = beforeWords(entry) * line
    const lines = entry.lines.flatMap(text => wrapped(text, width - before - 0.2 * line, line))
    const wide = before + Math.max(...lines.map(text => widthOf(text, line)))
    if (x > 0 && x + wide > width) [x, y] = [0, y + ROW * line]
    placed.push({ ...entry, lines, x, y })
    x += wide + GAP * line
    if (lines.length > 1 || entry.curve === null) [x, y] = [0, y + lines.length * ROW * line]
  }
  const end = x > 0 ? y + ROW * line : y
  return { entries: placed, height: placed.length > 0 ? Math.ceil(end - height) : 0 }
}

function beforeWords({ tag, curve }: Entry): number {
  return (curve === null ? 0 : PIECE + 0.4) + (tag === '' ? 0 : TAG)
}

export function Key({
  layout,
  line,
  bars,
}: {
  readonly layout: Layout
  readonly line: number
  readonly bars: boolean
}) {
  return (
    <g class="legend">
      {layout.entries.map(({ key, tag, curve, lines, x, y, ...entry }) => {
        const middle = y + 0.65 * line
        const piece = x + (tag === '' ? 0 : TAG * line)
        const words = x + beforeWords({ key, tag, curve, lines, ...entry }) * line
        return (
          <g key={key} data-set={curve?.set} data-reference={curve?.trace.reference}>
            {tag !== '' && <Tag text={tag} x={x + 0.65 * line} y={middle} line={line} />}
            {curve !== null && <Piece curve={curve} x={piece} y={middle} line={line} bars={bars} />}
            <text class="words">
              {lines.map((text, index) => (
                <tspan key={index} x={words} y={y + (1 + index * ROW) * line}>
                  {text}
                </tspan>
              ))}
            </text>
          </g>
        )
      })}
    </g>
  )
}

interface PieceProperties {
  readonly curve: Curve
  readonly x: number
  readonly y: number
  readonly line: number
  readonly bars: boolean
}

/** A piece of the curve as it is drawn. */
function Piece({ curve: { trace, set, rank }, x, y, line, bars }: PieceProperties) {
  const across = bars && trace.reference
  return (
    <path
      class={`piece${across ? ' stroke-across' : bars ? ' row-bar' : ''}`}
      data-set={set}
      data-rank={rank}
      data-reference={trace.reference}
      style={bars && !across ? { strokeWidth: `${0.7 * line}px` } : undefined}
      d={across ? `M${x + (PIECE / 2) * line},${y - 0.6 * line}v${1.2 * line}` : `M${x},${y}h${PIECE * line}`}
    />
  )
}

interface TagProperties {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly line: number
}

/** The number of a curve. */
export function Tag({ text, x, y, line }: TagProperties) {
  return (
    <g class="tag">
      <circle cx={x} cy={y} r={0.62 * line} />
      <text x={x} y={y + 0.32 * line} text-anchor="middle" style={{ fontSize: `${0.9 * line}px` }}>
        {text}
      </text>
    </g>
  )
}
