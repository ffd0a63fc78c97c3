import { useId } from 'preact/hooks'
import { useStore } from '../screen/store'
import { decibels } from './decibels'

/** As far down as it goes, dB. */
const LEAST = -40

interface Properties {
  readonly label: string
  /** Decibels below where it starts: nought or less. */
  readonly value: number
  readonly onChange: (value: number) => void
}

/** How loud it is; it only goes down from where it starts. */
export function Volume({ label, value, onChange }: Properties) {
  const id = useId()
  const settings = useStore(state => state.settings)
  const text = decibels(value, settings)
  return (
    <div class="volume">
      <label for={id}>{label}</label>
      <span class="volume-now" aria-hidden="true">
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
