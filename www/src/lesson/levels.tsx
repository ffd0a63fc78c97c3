import { useState } from 'preact/hooks'
import { AS_TYPED } from '../base/as-typed'
import { fromPrinted, print, toPrinted, withSign } from '../base/unit'
import { say } from '../base/words'
import type { Frame } from '../plot/frame'
import { useStore } from '../screen/store'
import { commitByEnter } from './commit'
import { stopsOf, typedAt, type Points } from './drawn-curve'
import type { Axes } from './drawn-frame'

interface Properties {
  readonly axes: Axes
  readonly points: Points
  readonly frame: Frame
  readonly onType: (stop: number, height: number | null) => void
}

/** The same curve, typed. */
export function Levels({ axes, frame, points, onType }: Properties) {
  const settings = useStore(state => state.settings)
  const { symbol } = frame.yPrinting
  return (
    <fieldset class="lesson-levels">
      <legend>{symbol === '' ? say('lesson-levels') : say('lesson-levels-in', { unit: symbol })}</legend>
      {stopsOf(axes.x).map(stop => (
        <label key={stop}>
          <span>{print(stop, frame.xPrinting, settings)}</span>
          <Level value={typedAt(points, axes.x, stop)} frame={frame} onHeight={height => onType(stop, height)} />
        </label>
      ))}
    </fieldset>
  )
}

interface LevelProperties {
  readonly value: number | null
  readonly frame: Frame
  readonly onHeight: (height: number | null) => void
}

function Level({ value, frame: { yPrinting }, onHeight }: LevelProperties) {
  const settings = useStore(state => state.settings)
  const [text, setText] = useState<{ readonly typed: string; readonly value: number | null } | null>(null)
  const written = value === null ? '' : withSign(`${Number(toPrinted(value, yPrinting).toFixed(1))}`, settings)
  const height = text === null ? null : heightOf(text.typed)
  const isEmpty = text !== null && text.typed.trim() === ''
  const isWrong = text !== null && !isEmpty && height === null
  return (
    <input
      type="text"
      onKeyDown={commitByEnter}
      inputmode="text"
      size={4}
      {...AS_TYPED}
      // What is typed stays as it is typed, until the curve is drawn anew there; emptied, until one goes on.
      value={text !== null && (isWrong || isEmpty || text.value === value) ? text.typed : written}
      onBlur={() => isEmpty && setText(null)}
      aria-invalid={isWrong}
      onInput={event => {
        const { value: typed } = event.currentTarget
        const printed = heightOf(typed)
        const next = printed === null ? null : fromPrinted(printed, yPrinting)
        setText({ typed, value: next })
        onHeight(next)
      }}
    />
  )
}

/** A number with a sign or without, and with its unit or without. */
function heightOf(text: string): number | null {
  const [, sign = '', number] = /^\s*([-+−]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*(?:dB)?\s*$/i.exec(text) ?? []
  if (number === undefined) return null
  return Number(number.replace(',', '.')) * (sign === '-' || sign === '−' ? -1 : 1)
}
