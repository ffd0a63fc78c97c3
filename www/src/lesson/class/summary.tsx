import { say } from '../../base/words'
import { asks } from '../lesson-state'
import { stepTitle } from '../title'
import { eachOnce, type Row } from './mark-again'
import { mistakesOf, type Mistake } from './mistakes'
import { countedOf } from './row-text'

/** What a class made of each step: how much of it was right, and what went wrong most often. */
export function Summary({ rows: all }: { readonly rows: readonly Row[] }) {
  const rows = eachOnce(all)
  const lesson = rows[0]?.lesson ?? null
  if (lesson === null) return null
  return (
    <>
      <h3>{say('lesson-collect-summary')}</h3>
      <ol class="lesson-summary">
        {lesson.steps.map((step, at) => {
          if (!asks(step)) return null
          const answered = rows.flatMap(row => row.marked[at] ?? [])
          const marked = answered.flatMap(one => countedOf(one) ?? [])
          const right = marked.reduce((sum, { share }) => sum + share, 0)
          const common = commonest(
            rows.flatMap(({ marked, result }) => {
              const own = marked[at] ?? null
              return own === null ? [] : mistakesOf(step, own, result.responses[at] ?? null)
            }),
          )
          return (
            <li key={at} value={at + 1}>
              <strong dir="auto">{stepTitle(step, at)}</strong>{' '}
              {answered.length > 0 && marked.length === 0
                ? say('lesson-verdict-out')
                : say('lesson-collect-right', {
                    count: `${marked.length}`,
                    of: `${rows.length}`,
                    percent: `${marked.length === 0 ? 0 : Math.round((100 * right) / marked.length)}`,
                  })}
              {common !== null && (
                <p data-mistake={common.mistake.id}>
                  {say('lesson-collect-commonest', { count: `${common.count}`, mistake: common.mistake.text })}
                </p>
              )}
            </li>
          )
        })}
      </ol>
    </>
  )
}

/** The mistake that most made. */
function commonest(all: readonly Mistake[]): { readonly mistake: Mistake; readonly count: number } | null {
  const counted = all.map(mistake => ({ mistake, count: all.filter(({ id }) => id === mistake.id).length }))
  return counted.reduce<(typeof counted)[number] | null>(
    (most, one) => (most === null || one.count > most.count ? one : most),
    null,
  )
}
