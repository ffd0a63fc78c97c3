import type { Axis, Settings } from '../generated/contract'
import type { Frame } from './frame'
import { memo } from './memo'
import { withSign } from './unit'

interface Properties {
  readonly frame: Frame
  readonly x: Axis
  readonly y: Axis
  readonly line: number
  readonly settings: Settings
}

/** The lines of the grid with their numbers, and the names of the axes. */
export const Grid = memo(({ frame, x, y, line, settings }: Properties) => {
  const { left, right, top, bottom, height } = frame
  return (
    <g class="grid">
      {frame.xTicks.map(({ at, text }, index) => (
        <g key={at} class={text === '' ? 'minor' : undefined}>
          <line x1={at} x2={at} y1={top} y2={bottom} />
          {text !== '' && (
            <text
              x={at}
              y={bottom + (1.2 + 1.2 * (index % frame.xRows)) * line}
              text-anchor={x.names.length > 0 ? anchor(at, frame) : 'middle'}
            >
              {withSign(text, settings)}
            </text>
          )}
        </g>
      ))}
      {frame.yTicks.map(({ at, text }) => (
        <g key={at} class={text === '' ? 'minor' : undefined}>
          <line x1={left} x2={right} y1={at} y2={at} />
          {text !== '' && (
            <text x={left - 0.5 * line} y={at + 0.35 * line} text-anchor="end">
              {withSign(text, settings)}
            </text>
          )}
        </g>
      ))}
      <text class="axis" x={right} y={height - 0.5 * line} text-anchor="end">
        {named(x, frame.xPrinting.symbol)}
      </text>
      <text class="axis" x={0} y={height - 0.5 * line}>
        {named(y, frame.yPrinting.symbol)}
      </text>
    </g>
  )
})

/** Names at the ends stay inside the picture. */
function anchor(at: number, { left, right }: Frame): 'start' | 'middle' | 'end' {
  return at <= left ? 'start' : at >= right ? 'end' : 'middle'
}

function named({ name }: Axis, symbol: string): string {
  return symbol === '' ? name : `${name}, ${symbol}`
}
