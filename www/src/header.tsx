import { useId, useRef, useState } from 'preact/hooks'
import { openBeside, whole } from './screen/address'
import { takeEscape } from './base/escape'
import { mayTell } from './screen/embed'
import { linkOf, writeEntry } from './screen/link'
import { embedOf, useStore } from './screen/store'
import { Seek } from './start/seek'
import { say } from './base/words'
import { Missing } from './base/missing'
import type { Later } from './use-more'

export function Header({ later }: { readonly later: Later }) {
  const { more } = later
  const inside = useStore(({ place }) => place.kind !== 'list')
  const [open, setOpen] = useState(false)
  const panel = useId()
  const opener = useRef<HTMLButtonElement>(null)
  const escaped = (event: KeyboardEvent) => {
    if (!open || !takeEscape(event)) return
    setOpen(false)
    opener.current?.focus()
  }
  return (
    <header class="top">
      <div class="bar">
        <a class="name" href="#">
          <Mark />
          <span>{say('name')}</span>
        </a>
        {inside && (
          <nav aria-label={say('nav')}>
            <a class="quiet" href="#">
              {say('all')}
            </a>
          </nav>
        )}
        <Seek button={inside} />
        <button
          type="button"
          class="quiet"
          ref={opener}
          aria-expanded={open}
          aria-controls={panel}
          onClick={() => setOpen(!open)}
          onKeyDown={escaped}
        >
          {say('settings')}
        </button>
      </div>
      <div id={panel} hidden={!open} class="settings" onKeyDown={escaped}>
        {open && (more === null ? <Missing later={later} /> : <more.Settings />)}
      </div>
    </header>
  )
}

/**
 * In a lesson there is nowhere else to go but to the whole page, with these
 * values; where some of them are hidden there is no such way.
 */
export function WholePage() {
  const place = useStore(({ place }) => place)
  const tell = useStore(state => mayTell(embedOf(state)))
  const settings = useStore(state => state.settings)
  if (!tell) return null
  const hash =
    place.kind === 'calculator'
      ? (linkOf({ ...place.filling, embed: null }, settings) ?? '')
      : place.kind === 'entry'
        ? writeEntry(place.id)
        : ''
  return (
    <a
      class="quiet whole"
      target="_blank"
      rel="noopener"
      href={whole(hash)}
      onClick={event => {
        event.preventDefault()
        openBeside(whole(hash))
      }}
    >
      <Mark />
      {say('frame-whole')}
    </a>
  )
}

/** The signal's way, in from one side and out at the other, with an ohm in it. */
function Mark() {
  return (
    <svg class="mark" viewBox="0 0 48 32" aria-hidden="true">
      <path d="M2 26H17C11 22 9 18 9 14a15 10.5 0 0 1 30 0c0 4-2 8-8 12H46" />
      <circle cx="3.5" cy="26" r="3" />
      <circle cx="44.5" cy="26" r="3" />
    </svg>
  )
}
