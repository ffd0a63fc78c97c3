import type { ChoiceDescription, FieldDescription } from '../../generated/contract'
import { choose } from '../screen/screen'
import { useStore } from '../screen/store'

/** More letters than this do not fit side by side on a phone. */
const ROOM = 44

interface Properties {
  readonly id: string
  readonly field: FieldDescription
  readonly choice: ChoiceDescription
  readonly describedBy: string
}

export function ChoiceInput({ id, field, choice, describedBy }: Properties) {
  const echo = useStore(({ answer }) => answer?.fields[field.id])
  const value = echo?.text ?? choice.default
  const letters = choice.options.reduce((sum, { name }) => sum + name.length + 4, 0)
  if (letters > ROOM) {
    return (
      <select
        id={id}
        aria-labelledby={`${id}-name`}
        aria-describedby={describedBy}
        aria-invalid={Boolean(echo?.problem)}
        value={value}
        onChange={event => choose(field.id, event.currentTarget.value)}
      >
        {choice.options.map(option => (
          <option key={option.id} value={option.id}>
            {option.name}
          </option>
        ))}
      </select>
    )
  }
  return (
    <div role="radiogroup" class="choices" aria-labelledby={`${id}-name`} aria-describedby={describedBy}>
      {choice.options.map(option => (
        <label key={option.id}>
          <input
            type="radio"
            name={id}
            value={option.id}
            checked={option.id === value}
            onChange={() => choose(field.id, option.id)}
          />
          <span>{option.name}</span>
        </label>
      ))}
    </div>
  )
}
