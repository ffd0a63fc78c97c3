import { writePlace } from './link'
import { useStore } from './store'
import { say } from './words'

/** Where formulas and values come from, and which other calculators show more. */
export function Sources() {
  const links = useStore(({ good }) => good?.report.links) ?? []
  const sources = useStore(({ good }) => good?.report.sources) ?? []
  const settings = useStore(state => state.settings)
  return (
    <>
      {links.length > 0 && (
        <nav class="links" aria-labelledby="links">
          <h2 id="links">{say('links')}</h2>
          <ul>
            {links.map(({ text, calculator, values }) => (
              <li key={`${calculator} ${text}`}>
                <a
                  href={writePlace(
                    { calculator, current: Object.fromEntries(values), held: [], want: null, tolerance: null },
                    settings,
                  )}
                >
                  {text}
                </a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {sources.length > 0 && (
        <section class="sources" aria-labelledby="sources">
          <h2 id="sources">{say('sources')}</h2>
          <ul>
            {sources.map(text => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}
