import { writeLink } from '../screen/link'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** Where formulas and values come from, and which other calculators show more. */
export function Sources() {
  const links = useStore(({ good }) => good?.report.links) ?? []
  const sources = useStore(({ good }) => good?.report.sources) ?? []
  const settings = useStore(state => state.settings)
  return (
    <>
      <SeeAlso links={links.map(link => ({ text: link.text, href: writeLink(link, settings) }))} />
      <SourceList texts={sources} />
    </>
  )
}

interface Target {
  readonly text: string
  readonly href: string
}

export function SeeAlso({ links }: { readonly links: readonly Target[] }) {
  if (links.length === 0) return null
  return (
    <nav class="links" aria-labelledby="links">
      <h2 id="links">{say('links')}</h2>
      <ul>
        {links.map(({ text, href }) => (
          <li key={`${href} ${text}`}>
            <a href={href}>{text}</a>
          </li>
        ))}
      </ul>
    </nav>
  )
}

export function SourceList({ texts }: { readonly texts: readonly string[] }) {
  if (texts.length === 0) return null
  return (
    <section class="sources" aria-labelledby="sources">
      <h2 id="sources">{say('sources')}</h2>
      <ul>
        {texts.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  )
}
