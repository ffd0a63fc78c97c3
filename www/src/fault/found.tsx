import type { Found as FoundCause, NextStep } from '../../generated/contract'
import { percent } from '../base/percent'
import { within } from '../base/within'
import { say } from '../base/words'
import type { Search } from './address'
import { causeName, cautionOf, cureOf } from './said'
import { answerByKey, Deed, Figures, First, Others, Outcomes } from './step'
import { countedOf, WasIt } from './was-it'

interface Properties {
  readonly found: FoundCause
  readonly others: readonly NextStep[]
  readonly search: Search
}

/** The cause, its cure, and what proves it. */
export function Found({ found: { cause, share, by, others: causes, figures, proof }, others, search }: Properties) {
  const counted = countedOf(search)
  return (
    <section class="fault-found" aria-labelledby="fault-found" data-found={cause}>
      <h2 id="fault-found" tabIndex={-1} data-focus>
        {causeName(cause)}
      </h2>
      <p class="fault-sure">
        <strong>{say('fault-sure', { share: percent(share) })}</strong>{' '}
        {causes.length > 0 && say('fault-or', { causes: causes.map(id => within(causeName(id))).join(', ') })}
      </p>
      <p class="fault-cure">{cureOf(cause, by)}</p>
      <Figures figures={figures} />
      {proof === null ? (
        <p class="fault-proved">{say('fault-proved')}</p>
      ) : (
        <div class="fault-proof" data-step={proof.step} onKeyDown={answerByKey}>
          <h3>{say('fault-proof')}</h3>
          <ProofDeed proof={proof} cause={cause} />
          <Outcomes step={proof} />
        </div>
      )}
      <p class="hint">{cautionOf(`cure-${cause}`) ?? say('fault-safety')}</p>
      <WasIt cause={cause} counted={counted} />
      {others.length > 0 && (
        <details>
          <summary>{say('fault-look-on')}</summary>
          <Others steps={others} settings={search.settings} />
        </details>
      )}
    </section>
  )
}

/** How it is proved; a cure that stands above need not be said twice. */
function ProofDeed({ proof, cause }: { readonly proof: NextStep; readonly cause: string }) {
  if (proof.cures !== cause) return <Deed step={proof} proves />
  return (
    <>
      <First step={proof} />
      <p class="fault-look">{say('fault-proof-cure')}</p>
    </>
  )
}
