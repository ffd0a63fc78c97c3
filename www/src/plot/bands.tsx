import type { Band } from '../../generated/contract'
import type { Frame } from './frame'
import { memo } from '../base/memo'

interface Properties {
  readonly frame: Frame
  readonly bands: readonly Band[]
  readonly line: number
}

/** Named stretches of the axis; their names stand in two rows, to have room. */
export const Bands = memo(({ frame, bands, line }: Properties) => {
  const { left, right, top, bottom } = frame
  const inside = (value: number) => Math.min(Math.max(frame.x(value), left), right)
  return (
    <g class="bands">
      {bands.map(({ from, to, name }, index) => {
        const [start, end] = [inside(from), inside(to)]
        if (end <= start) return null
        const half = (name.length * line) / 4
        const middle = Math.min(Math.max((start + end) / 2, left + half), right - half)
        return (
          <g key={name}>
            {index % 2 === 0 && <rect x={start} y={top} width={end - start} height={bottom - top} />}
            <line
              x1={(start + end) / 2}
              x2={(start + end) / 2}
              y1={top - (index % 2 === 0 ? 1.4 : 0.2) * line}
              y2={top}
            />
            <text x={middle} y={top - (index % 2 === 0 ? 1.6 : 0.4) * line} text-anchor="middle">
              {name}
            </text>
          </g>
        )
      })}
    </g>
  )
})
