import type { Settings } from '../../generated/contract'
import type { Frame } from './frame'
import { memo } from '../base/memo'
import { withSign } from '../base/unit'

interface Properties {
  readonly frame: Frame
  readonly line: number
  readonly settings: Settings
}

/** The lines of the grid with their numbers, and the names of the axes. */
export const Grid = memo(({ frame, line, settings }: Properties) => {
  const { left, right, top, bottom, height, row } = frame
  const upright = row > 0 ? frame.yTicks : frame.xTicks
  const level = row > 0 ? [] : frame.yTicks
  return (
    <g class="grid">
      {upright.map(({ at, text, middle }) => (
        <g key={at} class={text === '' ? 'minor' : undefined}>
          <line x1={at} x2={at} y1={top} y2={bottom} />
          {text !== '' && (
            <text x={middle} y={bottom + 1.2 * line} text-anchor="middle">
              {withSign(text, settings)}
            </text>
          )}
        </g>
      ))}
      {level.map(({ at, text }) => (
        <g key={at} class={text === '' ? 'minor' : undefined}>
          <line x1={left} x2={right} y1={at} y2={at} />
          {text !== '' && (
            <text x={left - 0.5 * line} y={at + 0.35 * line} text-anchor="end">
              {withSign(text, settings)}
            </text>
          )}
        </g>
      ))}
      {frame.xName !== '' && (
        <text class="axis" x={right} y={height - (1.2 * frame.nameRows - 0.7) * line} text-anchor="end">
          {frame.xName}
        </text>
      )}
      <text class="axis" x={0} y={height - 0.5 * line}>
        {frame.yName}
      </text>
    </g>
  )
})
