import { useEffect, useState } from 'preact/hooks'
import { writeLink, type Texts } from '../screen/link'
import { useStore } from '../screen/store'
import { say } from '../base/words'

interface Done {
  readonly text: string
  /** The values that it made, once they are there. */
  readonly made: Texts | null
}

/** What would mend the limits that are missed, each done by one tap. */
export function Cures() {
  const cures = useStore(({ cures }) => cures)
  const settings = useStore(({ settings }) => settings)
  const stale = useStore(({ answer }) => answer?.report === null)
  // A lesson asks its reader for them, and has values that are locked or hidden.
  const inLesson = useStore(({ place }) => place.kind === 'calculator' && place.filling.embed !== null)
  const current = useStore(({ place }) => (place.kind === 'calculator' ? place.filling.current : null))
  const [done, setDone] = useState<Done | null>(null)
  useEffect(() => {
    // Said of the values that it made, and of no later ones.
    setDone(done => done && (done.made === null ? { ...done, made: current } : null))
  }, [current])
  const offered = cures.length > 0 && !stale && !inLesson
  return (
    <>
      <p role="status" class="cured">
        {done?.text}
      </p>
      {offered && (
        <section class="cures" aria-labelledby="cures">
          <h3 id="cures">{say('cures')}</h3>
          <ul class="chips">
            {cures.map(({ reading, link }) => (
              <li key={`${reading} ${link.text}`}>
                <a
                  class="chip"
                  href={writeLink(link, settings)}
                  onClick={event => {
                    if (event.ctrlKey || event.metaKey || event.shiftKey) return
                    setDone({ text: say('cured', { cure: link.text }), made: null })
                    // The chip goes with what it mends: the answer is what to read next.
                    document.getElementById('answer')?.focus()
                  }}
                >
                  {link.text}
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
