import { writeLink } from '../screen/link'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** What would mend the limits that are missed, each done by one tap. */
export function Cures() {
  const cures = useStore(({ cures }) => cures)
  const settings = useStore(({ settings }) => settings)
  const stale = useStore(({ answer }) => answer?.report === null)
  // A lesson asks its reader for them, and has values that are locked or hidden.
  const inLesson = useStore(({ place }) => place.kind === 'calculator' && place.filling.embed !== null)
  if (cures.length === 0 || stale || inLesson) return null
  return (
    <section class="cures" aria-labelledby="cures">
      <h3 id="cures">{say('cures')}</h3>
      <ul class="chips">
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
