import { say } from '../base/words'
import { nameOf, type Against, type Rig } from './rigs'

interface Properties {
  readonly others: ReadonlyMap<Against, Rig>
  readonly other: Rig
  readonly onOther: (place: Against) => void
}

/** What the rig on the screen is compared with, where there is a choice. */
export function Compared({ others, other, onOther }: Properties) {
  if (others.size < 2) return null
  const chosen = [...others].find(([, rig]) => rig === other)?.[0]
  return (
    <label class="hear-against">
      <span>{say('hear-against')}</span>
      <select
        value={`${chosen}`}
        onChange={({ currentTarget: { value } }) => onOther(value === 'flat' ? value : Number(value))}
      >
        {[...others].map(([place, rig]) => (
          <option key={place} value={`${place}`}>
            {nameOf(rig)}
          </option>
        ))}
      </select>
    </label>
  )
}
