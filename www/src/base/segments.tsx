import { useId } from 'preact/hooks'
import { say } from './words'

interface Choice<T> {
  readonly id: T
  readonly name: string
}

interface Properties<T> {
  readonly name: string
  readonly legend: string
  readonly options: readonly Choice<T>[]
  /** Nothing where several are chosen at once. */
  readonly value: T | null
  readonly onChoose: (id: T) => void
}

/** Choices whose words stand in the catalogue behind one beginning. */
export function choices<const T extends string>(key: string, ids: readonly T[]): Choice<T>[] {
  return ids.map(id => ({ id, name: say(`${key}-${id}`) }))
}

/** One of few: a group of radio buttons side by side. */
export function Segments<T extends string>({ name, legend, options, value, onChoose }: Properties<T>) {
  const group = useId()
  return (
    <fieldset class="segments">
      <legend>{legend}</legend>
      <div class="choices">
        {options.map(option => (
          <label key={option.id}>
            <input
              type="radio"
              name={`${name}-${group}`}
              value={option.id}
              checked={option.id === value}
              onChange={() => onChoose(option.id)}
            />
            <span>{option.name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
