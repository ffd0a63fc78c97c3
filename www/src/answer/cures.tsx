import { writeLink } from '../screen/link'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** What would mend the limits that are missed, each done by one tap. */
export function Cures() {
  const cures = useStore(({ cures }) => cures)
  const settings = useStore(({ settings }) => settings)
  const stale = useStore(({ answer }) => answer?.report === null)
  if (cures.length === 0 || stale) return null
  return (
    <section class="cures" aria-labelledby="cures">
      <h3 id="cures">{say('cures')}</h3>
      <ul>
        {cures.map(({ reading, link }) => (
          <li key={`${reading} ${link.text}`}>
            <a class="chip" href={writeLink(link, settings)}>
              {link.text}
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}
