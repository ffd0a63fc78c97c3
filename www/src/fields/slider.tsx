import { scaleLinear, scaleLog } from 'd3-scale'
import { useMemo } from 'preact/hooks'
import { constants, type FieldDescription, type NumberDescription, type Unit } from '../../generated/contract'
import { memo } from '../base/memo'
import { putNumber, putText } from '../screen/screen'
import { textOf } from '../screen/shown'
import { getState, useStore, type State } from '../screen/store'
import { useSwipe } from './swipe'
import { round } from '../base/unit'
import { say } from '../base/words'

const STEPS = 400
/** How near the thumb must come to a value of the trade to rest on it. */
const CATCH = 6
/** And to a preferred value, of which there are many. */
const NEAR = 2
/** What parts with preferred values are counted in. */
const PARTS: readonly Unit[] = ['ohm', 'farad', 'henry']

interface Stop {
  readonly value: number
  readonly at: number
}

interface Properties {
  readonly field: FieldDescription
  readonly number: NumberDescription
}

/** The scale of a slider, the values of the trade on it, and the preferred ones. */
function useScale({ usual_from, usual_to, log, marks, unit }: NumberDescription) {
  return useMemo(() => {
    const scale = (log ? scaleLog() : scaleLinear()).domain([usual_from, usual_to]).range([0, STEPS]).clamp(true)
    const stopsAt = (values: readonly number[]): Stop[] =>
      values.filter(value => value >= usual_from && value <= usual_to).map(value => ({ value, at: scale(value) }))
    const rounded = (decade: number) => constants.preferred.map(value => Number((value * decade).toPrecision(2)))
    const preferred = log && PARTS.includes(unit) ? decades(usual_from, usual_to).flatMap(rounded) : []
    return { scale, stops: stopsAt(marks.map(({ value }) => value)), preferred: stopsAt(preferred) }
  }, [usual_from, usual_to, log, marks, unit])
}

/** Moves a number through its usual range; it rests on the values of the trade. */
export const Slider = memo(({ field, number }: Properties) => {
  // What makes no sense leaves it where it was.
  const echo = ({ answer, good }: State) => (answer?.fields[field.id]?.problem ? good : answer)?.fields[field.id]
  const value = useStore(state => echo(state)?.value ?? null)
  const text = useStore(state => echo(state)?.text ?? '')
  const settings = useStore(state => state.settings)
  const { scale, stops, preferred } = useScale(number)
  // A step of the slider may be smaller than one of the round numbers: then it
  // goes on to the next of these.
  const onward = (at: number) => {
    const by = Math.sign(at - scale(value ?? number.usual_from))
    let next = round(scale.invert(at), number, settings)
    for (let on = at + by; next === value && by !== 0 && on >= 0 && on <= STEPS; on += by) {
      next = round(scale.invert(on), number, settings)
    }
    return next
  }
  const put = (at: number) => {
    const within = (reach: number) => (stop: Stop) => Math.abs(stop.at - at) <= reach
    const stop = stops.find(within(CATCH)) ?? preferred.find(within(NEAR))
    // A key press always moves on, or it could not leave a value of the trade.
    const caught = stop !== undefined && Math.abs(scale(value ?? number.usual_from) - at) > 1.5
    putNumber(field.id, caught ? stop.value : onward(at))
  }
  const swipe = useSwipe({
    begin: () => textNow(field.id),
    put: part => put(Math.round(part * STEPS)),
    takeBack: text => putText(field.id, text),
  })
  const at = value === null ? 0 : Math.round(scale(value))
  return (
    <span class="slider">
      <span class="rests">
        {stops.map(({ value, at }) => (
          <i key={value} style={{ insetInlineStart: `${(100 * at) / STEPS}%` }} />
        ))}
      </span>
      <input
        type="range"
        min={0}
        max={STEPS}
        step={1}
        value={at}
        aria-label={say('slider', { field: field.name })}
        aria-valuetext={text === '' ? say('absent') : text}
        {...swipe.handlers}
        onInput={event => {
          // A finger that has yet to say where it goes sets nothing.
          if (swipe.isTouched()) event.currentTarget.value = `${at}`
          else put(event.currentTarget.valueAsNumber)
        }}
      />
    </span>
  )
})

/** What stands in a field now, as one would type it. */
function textNow(id: string): string {
  const state = getState()
  return textOf(id, state.place.kind === 'calculator' ? state.place.filling.current : {}, state)
}

/** The powers of ten from that below the least value to that below the most. */
function decades(from: number, to: number): number[] {
  const [first, last] = [from, to].map(value => Math.floor(Math.log10(value))) as [number, number]
  return Array.from({ length: last - first + 1 }, (_, index) => 10 ** (first + index))
}
