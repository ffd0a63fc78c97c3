import type { FieldDescription, NumberDescription } from '../../generated/contract'
import { memo } from '../base/memo'
import { putNumber } from '../screen/screen'
import { useStore } from '../screen/store'
import { isNear } from '../screen/translate'
import { say } from '../base/words'

interface Properties {
  readonly field: FieldDescription
  readonly number: NumberDescription
}

/** Values of the trade, each with what has it. */
export const Marks = memo(({ field, number }: Properties) => {
  const value = useStore(({ answer }) =>
    answer?.fields[field.id]?.problem ? undefined : answer?.fields[field.id]?.value,
  )
  if (number.marks.length === 0) return null
  return (
    <ul class="marks" aria-label={say('marks', { field: field.name })}>
      {number.marks.map(mark => (
        <li key={`${mark.value} ${mark.name}`}>
          <button
            type="button"
            aria-pressed={isNear(mark.value, value)}
            onClick={() => putNumber(field.id, mark.value)}
          >
            <strong>
              <bdi>{mark.text}</bdi>
            </strong>{' '}
            <span>{mark.name}</span>
          </button>
        </li>
      ))}
    </ul>
  )
})
