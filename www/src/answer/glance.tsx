import { useEffect, useMemo, useState } from 'preact/hooks'
import { pathOf } from '../plot/curve'
import { useStore } from '../screen/store'
import { scaleOf } from '../plot/trace'
import { say } from '../base/words'
import { GLANCED } from './glanced'

const WIDTH = 84
const HEIGHT = 40

/**
 * The answer in short, over the fields, while the answer itself is scrolled
 * away. It repeats what stands there, so only eyes get it.
 */
export function Glance() {
  const headline = useStore(({ lead }) => lead?.report.headline)
  const plot = useStore(({ good }) => good?.report.plots[0])
  const stale = useStore(({ answer }) => answer?.report === null)
  const [away, setAway] = useState(false)
  useEffect(() => {
    const element = document.getElementById(GLANCED)
    if (element === null) return
    // Below the screen counts as on it, or a jump from there to above it would go unnoticed.
    const observer = new IntersectionObserver(
      ([entry]) => setAway(entry !== undefined && !entry.isIntersecting && entry.boundingClientRect.top < 0),
      { rootMargin: '0px 0px 1000000px' },
    )
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  const path = useMemo(() => {
    const trace = away ? plot?.traces.find(({ reference }) => !reference) : undefined
    if (plot === undefined || trace === undefined) return null
    const x = scaleOf(plot.x).domain([plot.x.from, plot.x.to]).range([0, WIDTH])
    const y = scaleOf(plot.y)
      .domain([plot.y.from, plot.y.to])
      .range([HEIGHT - 2, 2])
    const few = Math.ceil(trace.x.length / WIDTH)
    const thin = (values: readonly number[]) => values.filter((_, index) => index % few === 0)
    // What has heights at some places alone is no line here either.
    if (plot.x.discrete) {
      return trace.y.map((height, index) => `M${x(trace.x[index] ?? 0)} ${HEIGHT}V${y(height)}`).join('')
    }
    return pathOf({ x: thin(trace.x), y: thin(trace.y) }, { x, y })
  }, [plot, away])
  if (!away || headline === undefined) return null
  // Words want all the room that there is.
  const [first] = headline
  return (
    <div class="glance" aria-hidden="true" data-stale={stale}>
      {path !== null && (
        <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width={WIDTH} height={HEIGHT}>
          <path class="curve" data-set={0} d={path} />
        </svg>
      )}
      {headline.slice(0, first?.value === null ? 1 : 2).map(({ id, name, value, text, verdict }) => (
        <span key={id} class="part" data-words={value === null}>
          <span class="what">{stale ? say('last-good-short') : name}</span>
          <strong data-tone={verdict?.tone}>
            <bdi>{text}</bdi>
          </strong>
        </span>
      ))}
    </div>
  )
}
