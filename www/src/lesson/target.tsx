import { useId, useMemo } from 'preact/hooks'
import type { DrawerPart, LessonStep, Limit } from '../../generated/contract'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import { fieldOf, isThere, optionOf, readingOf, type Bench } from './bench'
import { bound } from './bound'
import { respond } from './lesson-state'
import type { Asked } from './step'

/** Parts from a drawer that have to meet limits, within a budget. */
export function TargetAnswer({ state, at, step, bench, response: { parts } }: Asked) {
  const settings = useStore(state => state.settings)
  const { budget, limits } = step
  // What is there already is not taken for it.
  const drawer = useMemo(
    () =>
      step.drawer.filter(
        ({ field, value }) => !isThere({ lesson: state.lesson, dealt: state.dealt }, at, field, value, settings),
      ),
    [state.lesson, state.dealt, at, step, settings],
  )
  const fields = [...new Set(drawer.map(({ field }) => field))]
  const take = (field: string, value: string | null) => {
    const { [field]: _, ...others } = parts
    respond({ parts: value === null ? others : { ...others, [field]: value } })
  }
  const cost = costOf(step.drawer, parts)
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
        <FieldParts
          key={field}
          name={fieldOf(bench, field).name}
          field={field}
          now={fieldOf(bench, field).text}
          parts={drawer
            .filter(part => part.field === field)
            .map(part => {
              const name = partName(part, bench)
              return {
                value: part.value,
                name: hasCost(step) ? say('lesson-part', { name, cost: `${part.cost}` }) : name,
              }
            })}
          taken={parts[field] ?? null}
          onTake={value => take(field, value)}
        />
      ))}
      {hasCost(step) && (
        <p class="lesson-cost" role="status" data-over={budget !== null && cost > budget}>
          {budget === null
            ? say('lesson-cost', { cost: `${cost}` })
            : say('lesson-cost-of', { cost: `${cost}`, budget: `${budget}` })}
        </p>
      )}
    </div>
  )
}

interface FieldProperties {
  readonly name: string
  readonly field: string
  /** What stands there as it is. */
  readonly now: string
  readonly parts: readonly { readonly value: string; readonly name: string }[]
  readonly taken: string | null
  readonly onTake: (value: string | null) => void
}

/** What of a drawer goes to one place. */
function FieldParts({ name, field, now, parts, taken, onTake }: FieldProperties) {
  const group = useId()
  const choices = [{ value: null, name: say('lesson-as-it-is', { now }) }, ...parts]
  return (
    <fieldset data-field={field}>
      <legend>{name}</legend>
      <div class="choices">
        {choices.map(part => (
          <label key={part.value}>
            <input type="radio" name={group} checked={taken === part.value} onChange={() => onTake(part.value)} />
            <span>{part.name}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}

/** What parts have to meet, in words. */
export function LimitText({ limit, bench }: { readonly limit: Limit; readonly bench: Bench | null }) {
  const { reading } = limit
  const name = readingOf(bench, reading)?.name ?? reading
  const [least, most] = [bound(limit.least), bound(limit.most)]
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
  return bound(name === '' ? optionOf(bench, field, value) : name)
}

/** Whether there is anything to be paid, or to be kept to. */
export function hasCost({ drawer, budget }: Pick<LessonStep, 'drawer' | 'budget'>): boolean {
  return budget !== null || drawer.some(({ cost }) => cost > 0)
}

export function costOf(drawer: readonly DrawerPart[], parts: Readonly<Record<string, string>>): number {
  return takenOf(drawer, parts).reduce((sum, { cost }) => sum + cost, 0)
}

/** What of a drawer was taken. */
export function takenOf(drawer: readonly DrawerPart[], parts: Readonly<Record<string, string>>): DrawerPart[] {
  return drawer.filter(({ field, value }) => parts[field] === value)
}
