import type { Band } from '../../generated/contract'
import type { Frame } from './frame'
import { widthOf } from './measure'
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
  // Where the last name of each row ends; one that would run into it is told at the finger only.
  const taken = [-Infinity, -Infinity]
  return (
    <g class="bands">
      {bands.map(({ from, to, name }, index) => {
        const [start, end] = [inside(from), inside(to)]
        if (end <= start) return null
        const row = index % 2
        const half = widthOf(name, line) / 2
        const middle = Math.max(Math.min((start + end) / 2, right - half), half)
        const fits = middle - half > (taken[row] ?? 0) + 0.3 * line
        if (fits) taken[row] = middle + half
        return (
          <g key={name}>
            {row === 0 && <rect x={start} y={top} width={end - start} height={bottom - top} />}
            {fits && (
              <>
                <line
                  x1={(start + end) / 2}
                  x2={(start + end) / 2}
                  y1={top - (row === 0 ? 1.4 : 0.2) * line}
                  y2={top}
                />
                <text x={middle} y={top - (row === 0 ? 1.6 : 0.4) * line} text-anchor="middle">
                  {name}
                </text>
              </>
            )}
          </g>
        )
      })}
    </g>
  )
})
