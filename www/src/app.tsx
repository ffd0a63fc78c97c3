import type { RefObject } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'
import { Announcer } from './announcer'
import { Calculator } from './calculator'
import { Coming, isComing } from './answer/coming'
import { shownDescription } from './screen/descriptions'
import { entryOf } from './engine/entries'
import { Header, WholePage } from './header'
import { List } from './start/list'
import { Steps } from './fields/steps'
import { isEmbedded, useStore } from './screen/store'
import { isLate, type LatePlace } from './screen/link'
import { say } from './base/words'
import { Missing } from './base/missing'
import { useMore, type Later } from './use-more'

export function App() {
  const known = useStore(shownDescription)
  const entry = useStore(({ place, settings }) => (place.kind === 'entry' ? entryOf(place.id, settings) : undefined))
  const coming = useStore(isComing)
  const about = useStore(({ place }) => place.kind === 'about')
  const late = useStore(({ place }) => (isLate(place) ? place : null))
  const embed = useStore(isEmbedded)
  const alone = entry !== undefined || about || late !== null
  const later = useMore(alone || embed)
  const { more } = later
  const main = useRef<HTMLElement>(null)
  const title = known?.title ?? entry?.title ?? titleOf(about ? 'about' : late?.kind)
  useTitle(title, main)
  return (
    <>
      {!embed && (
        <a
          class="skip"
          href="#main"
          onClick={event => {
            // The address of a screen is not a place on it.
            event.preventDefault()
            main.current?.focus()
          }}
        >
          {say('skip')}
        </a>
      )}
      {!embed && <Header later={later} />}
      <main id="main" ref={main} tabIndex={-1}>
        {more && <more.PageNotices embed={embed} />}
        {more && !coming && <more.Notice />}
        {coming ? (
          <Coming />
        ) : known !== undefined ? (
          <Calculator key={known.id} description={known} later={later} />
        ) : alone && more === null ? (
          <Awaited title={title ?? ''} later={later} />
        ) : entry !== undefined ? (
          more && <more.Reference key={entry.id} entry={entry} beside={embed && <WholePage />} />
        ) : late !== null ? (
          more && <more.LateScreen place={late} />
        ) : about ? (
          more && <more.About />
        ) : embed ? (
          <WholePage />
        ) : (
          <List>
            {more && <more.Share title={say('name')} name="page" />}
            {more && <more.OfflineLine />}
          </List>
        )}
        {known !== undefined && !embed && <Steps key={known.id} />}
      </main>
      <Announcer />
    </>
  )
}

/** The title of a screen that is no calculator. */
function titleOf(kind: 'about' | LatePlace['kind'] | undefined): string | undefined {
  return kind && say({ about: 'about', stage: 'plan', fault: 'seek', lesson: 'learn' }[kind])
}

/** Another screen has another title, and begins at its top, for readers of the screen too. */
function useTitle(title: string | undefined, main: RefObject<HTMLElement | null>): void {
  const first = useRef(true)
  useLayoutEffect(() => {
    document.title = title === undefined ? say('name') : `${title} · ${say('name')}`
    if (!first.current) main.current?.querySelector('h1')?.focus()
    first.current = false
  }, [title, main])
}

/** The title of what has not come yet. */
function Awaited({ title, later }: { readonly title: string; readonly later: Later }) {
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{title}</h1>
      </div>
      <Missing later={later} />
    </>
  )
}
