import { useId } from 'preact/hooks'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import { decibels } from './figures'

/** As far down as it goes, dB. */
const LEAST = -40

interface Properties {
  /** Decibels below where it starts: nought or less. */
  readonly value: number
  readonly onChange: (value: number) => void
}

/** How loud it is; it only goes down from where it starts. */
export function Volume({ value, onChange }: Properties) {
  const id = useId()
  const settings = useStore(state => state.settings)
  const text = decibels(value, settings)
  return (
    <div class="hear-volume">
      <label for={id}>{say('hear-volume')}</label>
      <span class="hear-volume-now" aria-hidden="true">
        {text}
      </span>
      <input
        id={id}
        type="range"
        min={LEAST}
        max={0}
        step={1}
        value={value}
        aria-valuetext={text}
        onInput={event => onChange(event.currentTarget.valueAsNumber)}
      />
    </div>
  )
}
