import { useId, useRef, useState } from 'preact/hooks'
import { openBeside, whole } from './screen/address'
import { takeEscape } from './base/escape'
import { canStayAwake, setAwake, wantsAwake } from './awake'
import { mayTell } from './screen/embed'
import { linkOf } from './screen/link'
import { Segments, choices } from './base/segments'
import { setSettings, setTheme } from './screen/choices'
import { THEMES } from './screen/theme'
import { embedOf, useStore } from './screen/store'
import { Seek } from './start/seek'
import { isSlashOn, setSlash } from './start/slash-key'
import { say } from './base/words'

export function Header() {
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
        {open && <Settings />}
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
  const hash = place.kind === 'calculator' ? (linkOf({ ...place.filling, embed: null }, settings) ?? '') : ''
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
      {say('lesson-whole')}
    </a>
  )
}

function Settings() {
  const settings = useStore(state => state.settings)
  const theme = useStore(state => state.theme)
  return (
    <>
      <Segments
        name="decimal"
        legend={say('decimal')}
        options={choices('decimal', ['point', 'comma'])}
        value={settings.decimal}
        onChoose={decimal => setSettings({ decimal })}
      />
      <Segments
        name="length"
        legend={say('length')}
        options={choices('length', ['metre', 'foot'])}
        value={settings.length}
        onChoose={length => setSettings({ length })}
      />
      <Segments
        name="mains"
        legend={say('mains')}
        options={choices('mains', ['50', '60'])}
        value={settings.mains}
        onChoose={mains => setSettings({ mains })}
      />
      <Segments
        name="theme"
        legend={say('theme')}
        options={choices('theme', THEMES)}
        value={theme}
        onChoose={setTheme}
      />
      <Awake />
      <SlashKey />
    </>
  )
}

/** Whether a key of one character leads to the search. */
function SlashKey() {
  const [on, setOn] = useState(isSlashOn)
  return (
    <Segments
      name="slash"
      legend={say('slash')}
      options={choices('slash', ['yes', 'no'])}
      value={on ? 'yes' : 'no'}
      onChoose={value => {
        setOn(value === 'yes')
        setSlash(value === 'yes')
      }}
    />
  )
}

/** Whether the screen may sleep, or why that cannot be chosen here. */
function Awake() {
  const [awake, setWanted] = useState(wantsAwake)
  const [refused, setRefused] = useState(false)
  if (!canStayAwake) return <p class="hint">{say('awake-cannot')}</p>
  return (
    <div>
      <Segments
        name="awake"
        legend={say('awake')}
        options={choices('awake', ['no', 'yes'])}
        value={awake ? 'yes' : 'no'}
        onChoose={async value => {
          setWanted(value === 'yes')
          setRefused(!(await setAwake(value === 'yes')))
        }}
      />
      <p role="status">{refused && say('awake-refused')}</p>
    </div>
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
