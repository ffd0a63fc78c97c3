import { useLayoutEffect, useMemo, useRef } from 'preact/hooks'
import type { CauseOdds, Heard } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { useSize } from '../../base/size'
import { useMedia } from '../../base/use-media'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { axesOf, type Axes } from './axes'
import { drawMarks, pen, type Curve } from './draw'
import { useLatest, type Latest } from './latest'
import { usePredicted } from './use-predicted'
import { fixed, hertz } from './told'

interface Properties {
  readonly sound: Latest<Heard | null>
  readonly odds: readonly CauseOdds[]
  /** What comes in; nothing where the spectrum is that of what was heard. */
  readonly live: Latest<Curve> | null
}

/** The spectrum of what is heard, and where the lines of causes would stand in it. */
export function Spectrum({ sound, odds, live }: Properties) {
  const heard = useLatest(sound)
  const predicted = usePredicted(odds, heard)
  const [box, width, line] = useSize()
  const axes = useMemo(() => axesOf(width, line), [width, line])
  const theme = `${useStore(state => state.theme)} ${useMedia('(prefers-color-scheme: dark)')}`
  const curve = useRef<HTMLCanvasElement>(null)
  const marks = useRef<HTMLCanvasElement>(null)
  const still = live === null ? heard : null
  useLayoutEffect(() => {
    if (curve.current === null) return undefined
    const draw = pen(curve.current, axes)
    if (live !== null) return live.follow(draw)
    draw(Float32Array.from(still?.spectrum.flat() ?? []))
    return undefined
  }, [axes, live, still, theme])
  useLayoutEffect(() => {
    if (marks.current !== null) drawMarks(marks.current, axes, heard, predicted)
  }, [axes, heard, predicted, theme])
  return (
    <figure class="listen-spectrum">
      <div ref={box} role="img" aria-label={useLabel(heard)}>
        <Grid axes={axes} />
        <canvas ref={marks} />
        <canvas ref={curve} class="listen-live" />
      </div>
    </figure>
  )
}

function useLabel(heard: Heard | null): string {
  const settings = useStore(state => state.settings)
  if (heard === null || heard.spectrum.length === 0) return say('fault-listen-spectrum')
  const loudest = heard.spectrum.reduce((most, point) => (point[1] > most[1] ? point : most))
  const [hz, level] = [hertz(loudest[0], settings), fixed(loudest[1], 0, settings)]
  return say('fault-listen-spectrum-label', { hz, level })
}

const Grid = memo(({ axes }: { readonly axes: Axes }) => {
  const settings = useStore(state => state.settings)
  const { left, right, top, bottom, line, ticks, levels, x, y } = axes
  return (
    <svg
      class="listen-grid"
      viewBox={`0 0 ${axes.width} ${axes.height}`}
      width={axes.width}
      height={axes.height}
      font-size={line}
      aria-hidden="true"
    >
      {ticks.map(hz => (
        <g key={hz}>
          <line x1={x(hz)} x2={x(hz)} y1={top} y2={bottom} />
          <text x={x(hz)} y={bottom + 1.2 * line} text-anchor="middle">
            {hz < 1000 ? `${hz}` : `${hz / 1000}k`}
          </text>
        </g>
      ))}
      {levels.map((level, place) => (
        <g key={level}>
          <line x1={left} x2={right} y1={y(level)} y2={y(level)} />
          {place % 2 === 0 && (
            <text x={left - 0.4 * line} y={y(level) + 0.35 * line} text-anchor="end">
              {fixed(level, 0, settings)}
            </text>
          )}
        </g>
      ))}
    </svg>
  )
})
