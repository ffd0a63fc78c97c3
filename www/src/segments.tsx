import { useId } from 'preact/hooks'

interface Properties {
  readonly name: string
  readonly legend: string
  readonly options: readonly { readonly id: string; readonly name: string }[]
  readonly value: string
  readonly describedBy?: string
  readonly onChoose: (id: string) => void
}

/** One of few: a group of radio buttons side by side. */
export function Segments({ name, legend, options, value, describedBy, onChoose }: Properties) {
  const group = useId()
  return (
    <fieldset class="segments" aria-describedby={describedBy}>
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
