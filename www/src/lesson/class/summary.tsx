import type { LessonFinding } from '../../../generated/contract'
import { say } from '../../base/words'
import { asks } from '../lesson-state'
import type { Row } from './mark-again'

/** Findings that tell of nothing to talk about. */
const RIGHT: readonly string[] = ['right', 'all-limits']

/** What a class made of each step: how much of it was right, and what went wrong most often. */
export function Summary({ rows }: { readonly rows: readonly Row[] }) {
  const lesson = rows[0]?.lesson ?? null
  if (lesson === null) return null
  return (
    <>
      <h3>{say('lesson-collect-summary')}</h3>
      <ol class="lesson-summary">
        {lesson.steps.map((step, at) => {
          if (!asks(step)) return null
          const marked = rows.flatMap(row => row.marked[at] ?? [])
          const right = marked.reduce((sum, { share }) => sum + share, 0)
          const common = commonest(marked.flatMap(({ findings }) => findings))
          return (
            <li key={at} value={at + 1}>
              <strong>{step.title}</strong>{' '}
              {say('lesson-collect-right', {
                count: `${marked.length}`,
                of: `${rows.length}`,
                percent: `${marked.length === 0 ? 0 : Math.round((100 * right) / marked.length)}`,
              })}
              {common !== null && (
                <p data-finding={common.finding.id}>
                  {say('lesson-collect-commonest', { count: `${common.count}`, finding: common.finding.text })}
                </p>
              )}
            </li>
          )
        })}
      </ol>
    </>
  )
}

/** The kind of finding that there are most of, with one of them for its words. */
function commonest(all: readonly LessonFinding[]): { readonly finding: LessonFinding; readonly count: number } | null {
  const wrong = all.filter(({ id }) => !RIGHT.includes(id))
  const counted = wrong.map(finding => ({ finding, count: wrong.filter(({ id }) => id === finding.id).length }))
  return counted.reduce<(typeof counted)[number] | null>(
    (most, one) => (most === null || one.count > most.count ? one : most),
    null,
  )
}
