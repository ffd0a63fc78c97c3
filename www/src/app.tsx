import { useLayoutEffect, useRef } from 'preact/hooks'
import { Announcer } from './announcer'
import { About } from './start/about'
import { Calculator } from './calculator'
import { Coming } from './coming'
import { hasCalculator } from './engine/engine'
import { shownDescription } from './screen/descriptions'
import { entryOf } from './engine/entries'
import { Reference } from './look-up/reference'
import { Header, WholePage } from './header'
import { List } from './start/list'
import { BeginningNotice, DamagedNotice, Notice } from './notice'
import { NotOpened } from './not-opened'
import { RefusedNotice } from './refused'
import { Steps } from './fields/steps'
import { isEmbedded, useStore } from './screen/store'
import { Update } from './update'
import { say } from './base/words'

export function App() {
  const known = useStore(shownDescription)
  const entry = useStore(({ place, settings }) => (place.kind === 'entry' ? entryOf(place.id, settings) : undefined))
  const coming = useStore(
    ({ place, whole }) =>
      (place.kind === 'calculator' && !hasCalculator(place.filling.calculator)) ||
      (place.kind === 'entry' && whole !== 'here'),
  )
  const about = useStore(({ place }) => place.kind === 'about')
  const embed = useStore(isEmbedded)
  const main = useRef<HTMLElement>(null)
  const first = useRef(true)
  const title = known?.title ?? entry?.title ?? (about ? say('about') : undefined)
  useLayoutEffect(() => {
    document.title = title === undefined ? say('name') : `${title} · ${say('name')}`
    // Another screen begins at its top, for readers of the screen too.
    if (!first.current) main.current?.querySelector('h1')?.focus()
    first.current = false
  }, [title])
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
      {!embed && <Header />}
      <main id="main" ref={main} tabIndex={-1}>
        {!embed && <Update />}
        {!embed && <RefusedNotice />}
        <DamagedNotice />
        {!embed && <BeginningNotice />}
        {embed && <NotOpened />}
        {!coming && <Notice />}
        {coming ? (
          <Coming />
        ) : known !== undefined ? (
          <Calculator key={known.id} description={known} />
        ) : entry !== undefined ? (
          <Reference key={entry.id} entry={entry} />
        ) : about ? (
          <About />
        ) : embed ? (
          <WholePage />
        ) : (
          <List />
        )}
        {known !== undefined && !embed && <Steps key={known.id} />}
      </main>
      <Announcer />
    </>
  )
}
