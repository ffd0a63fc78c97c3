import type { Description } from '../../generated/contract'
import { Backwards } from './backwards'
import { Cures } from './cures'
import { GLANCED } from './glance'
import { FoldedCautions, Warnings } from '../base/warnings'
import { Ranking } from './ranking'
import { ReadingView } from './reading'
import { spreadOf } from '../plot/spread'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** The answer: what to read first, and what to mind about it. */
export function Answer({ description }: { readonly description: Description }) {
  const headline = useStore(({ good }) => good?.report.headline)
  const warnings = useStore(({ good }) => good?.report.warnings) ?? []
  const cautions = useStore(({ good }) => good?.report.cautions) ?? []
  const first = useStore(({ good }) => good?.report.cautions_first) ?? false
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  const stale = useStore(({ answer }) => answer?.report === null)
  const problem = useStore(({ answer }) => description.fields.find(({ id }) => answer?.fields[id]?.problem))
  return (
    <section class="answer" aria-labelledby="answer" data-stale={stale}>
      <h2 id="answer" class="unseen">
        {say('answer')}
      </h2>
      {stale && (
        <p class="stale">
          {say(headline === undefined ? 'no-answer' : 'last-good')}
          {problem !== undefined && (
            <button type="button" class="link" onClick={() => focusField(problem.id)}>
              {say('see-field', { field: problem.name })}
            </button>
          )}
        </p>
      )}
      {first && <FoldedCautions texts={cautions} open />}
      {headline !== undefined && (
        <dl class="headline" id={GLANCED} data-spreading={spreading}>
          {headline.map((reading, index) => (
            <ReadingView key={reading.id} reading={reading} lead={index === 0} spread={spreadOf(spread, reading)} />
          ))}
        </dl>
      )}
      <Warnings texts={warnings} />
      <Cures />
      <Ranking />
      {!first && <FoldedCautions texts={cautions} open={false} />}
      <Backwards description={description} />
    </section>
  )
}

function focusField(id: string): void {
  document.querySelector<HTMLElement>(`[data-field="${CSS.escape(id)}"] :is(input, select, .locked)`)?.focus()
}
