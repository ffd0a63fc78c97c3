import type { Axis, Settings } from '../../generated/contract'
import type { Frame } from './frame'
import { memo } from '../base/memo'
import { withSign } from '../base/unit'

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
              text-anchor={anchor(at, text, line, frame)}
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
      <text class="axis" x={right} y={height - (1.2 * frame.nameRows - 0.7) * line} text-anchor="end">
        {named(x, frame.xPrinting.symbol)}
      </text>
      <text class="axis" x={0} y={height - 0.5 * line}>
        {named(y, frame.yPrinting.symbol)}
      </text>
    </g>
  )
})

/** What stands at an end stays inside the picture. */
function anchor(at: number, text: string, line: number, { left, right, width }: Frame): 'start' | 'middle' | 'end' {
  const half = 0.35 * text.length * line
  return at <= left && half > left ? 'start' : at >= right && at + half > width ? 'end' : 'middle'
}

function named({ name }: Axis, symbol: string): string {
  return symbol === '' ? name : `${name}, ${symbol}`
}
