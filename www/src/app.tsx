import { useLayoutEffect, useRef } from 'preact/hooks'
import { Announcer } from './announcer'
import { Calculator } from './calculator'
import { shownDescription } from './descriptions'
import { entryOf } from './entries'
import { Entry } from './entry'
import { Header, WholePage } from './header'
import { isLesson } from './lesson'
import { List } from './list'
import { DamagedNotice, Notice } from './notice'
import { RefusedNotice } from './refused'
import { useStore } from './store'
import { Update } from './update'
import { say } from './words'

export function App() {
  const known = useStore(shownDescription)
  const entry = useStore(({ place, settings }) => (place.kind === 'entry' ? entryOf(place.id, settings) : undefined))
  const lesson = useStore(isLesson)
  const main = useRef<HTMLElement>(null)
  const first = useRef(true)
  const title = known?.title ?? entry?.title
  useLayoutEffect(() => {
    document.title = title === undefined ? say('name') : `${title} · ${say('name')}`
    // Another screen begins at its top, for readers of the screen too.
    if (!first.current) main.current?.querySelector('h1')?.focus()
    first.current = false
  }, [title])
  return (
    <>
      {!lesson && (
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
      {!lesson && <Header />}
      <main id="main" ref={main} tabIndex={-1}>
        {!lesson && <Update />}
        {!lesson && <RefusedNotice />}
        <DamagedNotice />
        <Notice />
        {known !== undefined ? (
          <Calculator key={known.id} description={known} />
        ) : entry !== undefined ? (
          <Entry key={entry.id} entry={entry} />
        ) : lesson ? (
          <WholePage />
        ) : (
          <List />
        )}
      </main>
      <Announcer />
    </>
  )
}
