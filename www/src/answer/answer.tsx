import type { ComponentChildren } from 'preact'
import type { Description, FieldDescription } from '../../generated/contract'
import { Cures } from './cures'
import { GLANCED } from './glanced'
import { FoldedCautions, Warnings } from '../base/warnings'
import { Ranking } from './ranking'
import { ReadingView } from './reading'
import { spreadOf } from './spread-of'
import { embedOf, useStore } from '../screen/store'
import { subjectOf } from '../screen/subject'
import { say } from '../base/words'

interface Properties {
  readonly description: Description
  /** What is asked further about it. */
  readonly children: ComponentChildren
}

/** The answer: what to read first, and what to mind about it. */
export function Answer({ description, children }: Properties) {
  const headline = useStore(({ lead }) => lead?.report.headline)
  const subject = useStore(state => state.lead && subjectOf(description, state.lead.report, embedOf(state)))
  const warnings = useStore(({ good }) => good?.report.warnings) ?? []
  const cautions = useStore(({ good }) => good?.report.cautions) ?? []
  const first = useStore(({ good }) => good?.report.cautions_first) ?? false
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  const stale = useStore(({ answer }) => answer?.report === null)
  const problem = useStore(({ answer }) => description.fields.find(({ id }) => answer?.fields[id]?.problem))
  return (
    <section class="answer" aria-labelledby="answer" data-stale={stale}>
      <h2 id="answer" class="unseen" tabIndex={-1}>
        {say('answer')}
      </h2>
      {headline === undefined && stale && <Stale last={false} problem={problem} />}
      {first && <FoldedCautions texts={cautions} open />}
      {headline !== undefined && (
        <div class="outcome">
          <dl class="headline" id={GLANCED} data-spreading={spreading}>
            {headline.map((reading, index) => (
              <ReadingView
                key={reading.id}
                reading={reading}
                lead={index === 0}
                subject={index === 0 ? subject : null}
                spread={spreadOf(spread, reading)}
              />
            ))}
          </dl>
          {stale && <Stale last problem={problem} />}
        </div>
      )}
      {/* Above what comes later still. */}
      {children}
      <Warnings texts={warnings} />
      <Cures />
      <Ranking />
      {!first && <FoldedCautions texts={cautions} open={false} />}
    </section>
  )
}

interface StaleProperties {
  /** Whether an answer stands beside it, the last good one. */
  readonly last: boolean
  /** The field to mend. */
  readonly problem: FieldDescription | undefined
}

/** Says that what is typed has no answer, and where to mend it. */
export function Stale({ last, problem }: StaleProperties) {
  return (
    <p class="stale">
      {say(last ? 'last-good' : 'no-answer')}
      {problem !== undefined && (
        <button type="button" class="link" onClick={() => focusField(problem.id)}>
          {say('see-field', { field: problem.name })}
        </button>
      )}
    </p>
  )
}

function focusField(id: string): void {
  document.querySelector<HTMLElement>(`[data-field="${CSS.escape(id)}"] :is(input, select, .locked)`)?.focus()
}
