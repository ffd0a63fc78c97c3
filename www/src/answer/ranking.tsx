import type { Candidate, Reading, Settings } from '../../generated/contract'
import { mayTell } from '../screen/embed'
import { writeLink } from '../screen/link'
import { VerdictView } from './reading'
import { embedOf, useStore } from '../screen/store'
import { say } from '../base/words'

/** Candidates in order, a line each that unfolds its reasons, each reason with a link to its working. */
export function Ranking() {
  const ranking = useStore(({ good }) => good?.report.ranking) ?? []
  const settings = useStore(state => state.settings)
  if (ranking.length === 0) return null
  return (
    <section class="ranking" aria-labelledby="ranking">
      <h2 id="ranking">{say('ranking')}</h2>
      <ul>
        {ranking.map(candidate => (
          <One key={candidate.id} candidate={candidate} settings={settings} />
        ))}
      </ul>
    </section>
  )
}

function One({ candidate, settings }: { readonly candidate: Candidate; readonly settings: Settings }) {
  const { id, name, place, verdict, reasons, link } = candidate
  // A link carries the values along, those too that a lesson hides.
  const tell = useStore(state => mayTell(embedOf(state)))
  return (
    <li>
      <details data-candidate={id} data-refused={place === null}>
        <summary>
          <h3>
            <span class="place">
              {place === null ? say('ranking-refused') : say('ranking-place', { place: `${place}` })}
            </span>{' '}
            {name}
          </h3>
          <VerdictView verdict={verdict} />
        </summary>
        {reasons.length > 0 && (
          <ul class="reasons">
            {reasons.map(({ reading, link }) => (
              <li key={reading.id}>
                {link === null || !tell ? (
                  <ReasonText reading={reading} />
                ) : (
                  <a href={writeLink(link, settings)} title={link.text}>
                    <ReasonText reading={reading} />
                  </a>
                )}{' '}
                {reading.verdict !== null && <VerdictView verdict={reading.verdict} />}
              </li>
            ))}
          </ul>
        )}
        {tell && (
          <p>
            <a href={writeLink(link, settings)}>{link.text}</a>
          </p>
        )}
      </details>
    </li>
  )
}

function ReasonText({ reading }: { readonly reading: Reading }) {
  return (
    <>
      {reading.name}: <strong>{reading.text}</strong>
    </>
  )
}
