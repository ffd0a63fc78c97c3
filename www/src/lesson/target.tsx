import { useId } from 'preact/hooks'
import type { DrawerPart, Limit } from '../../generated/contract'
import { say } from '../base/words'
import { fieldOf, optionOf, readingOf, type Bench } from './bench'
import { respond } from './lesson-state'
import type { Asked } from './step'

/** Parts from a drawer that have to meet limits, within a budget. */
export function TargetAnswer({ step, bench, response: { parts } }: Asked) {
  const group = useId()
  const { drawer, budget, limits } = step
  const fields = [...new Set(drawer.map(({ field }) => field))]
  const take = (field: string, value: string | null) => {
    const { [field]: _, ...others } = parts
    respond({ parts: value === null ? others : { ...others, [field]: value } })
  }
  const cost = costOf(drawer, parts)
  return (
    <div class="lesson-target">
      <ul class="lesson-limits" aria-label={say('lesson-limits')}>
        {limits.map((limit, index) => (
          <li key={index}>
            <LimitText limit={limit} bench={bench} />
          </li>
        ))}
      </ul>
      {fields.map(field => (
        <fieldset key={field} data-field={field}>
          <legend>{fieldOf(bench, field).name}</legend>
          <div class="choices">
            <label>
              <input
                type="radio"
                name={`${group}-${field}`}
                checked={!(field in parts)}
                onChange={() => take(field, null)}
              />
              <span>{say('lesson-as-it-is', { now: fieldOf(bench, field).text })}</span>
            </label>
            {drawer
              .filter(part => part.field === field)
              .map(part => (
                <label key={part.value}>
                  <input
                    type="radio"
                    name={`${group}-${field}`}
                    checked={parts[field] === part.value}
                    onChange={() => take(field, part.value)}
                  />
                  <span>{say('lesson-part', { name: partName(part, bench), cost: `${part.cost}` })}</span>
                </label>
              ))}
          </div>
        </fieldset>
      ))}
      <p class="lesson-cost" role="status" data-over={budget !== null && cost > budget}>
        {budget === null
          ? say('lesson-cost', { cost: `${cost}` })
          : say('lesson-cost-of', { cost: `${cost}`, budget: `${budget}` })}
      </p>
    </div>
  )
}

/** What parts have to meet, in words. */
export function LimitText({
  limit: { reading, least, most },
  bench,
}: {
  readonly limit: Limit
  readonly bench: Bench | null
}) {
  const name = readingOf(bench, reading)?.name ?? reading
  if (least !== '' && most !== '') return <>{say('lesson-limit-both', { reading: name, least, most })}</>
  return (
    <>
      {least === ''
        ? say('lesson-limit-most', { reading: name, most })
        : say('lesson-limit-least', { reading: name, least })}
    </>
  )
}

export function partName({ name, field, value }: DrawerPart, bench: Bench | null): string {
  return name === '' ? optionOf(bench, field, value) : name
}

export function costOf(drawer: readonly DrawerPart[], parts: Readonly<Record<string, string>>): number {
  return takenOf(drawer, parts).reduce((sum, { cost }) => sum + cost, 0)
}

/** What of a drawer was taken. */
export function takenOf(drawer: readonly DrawerPart[], parts: Readonly<Record<string, string>>): DrawerPart[] {
  return drawer.filter(({ field, value }) => parts[field] === value)
}
