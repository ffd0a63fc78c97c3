// How a screen is opened: by an address, a saved page, or another tab's choices.

import type { Settings } from '../../generated/contract'
import { hasCalculator, isWhole, wholeEngine } from '../engine/engine'
import * as address from './address'
import { leave, refresh, settle, showBlank, stopDrawing } from './asking'
import { noteVisit } from './at-hand'
import { followSettings, followTheme, note } from './choices'
import { descriptionOf } from './descriptions'
import { saysOther, withoutLanguage } from '../base/language'
import { withHidden, type Embed } from './embed'
import { readPlace, START, type Place } from './link'
import { beginning } from './saved-page'
import { DEFAULTS, loadPreferences, whenPreferencesChange } from './settings'
import { filling, setOpened } from './shown'
import { noteOpened } from './steps'
import { getState, setState } from './store'
import { showTheme } from './theme'
import { translated } from './translate'

export function start(): void {
  const { settings, theme } = loadPreferences()
  // A saved page has one of its own, which was not there yet before the first frame.
  showTheme(theme)
  setState({
    settings,
    theme,
    place: START,
    whole: isWhole() ? 'here' : 'coming',
    blank: {},
    answer: null,
    good: null,
    lead: null,
    held: [],
    working: false,
    backwards: null,
    cures: [],
    asking: false,
    spread: null,
    spreading: false,
    full: false,
    undoable: false,
    redoable: false,
  })
  address.resume()
  const hash = startHash()
  if (beginning()['working'] === true) setState({ working: true })
  open(readPlace(hash))
  note({ hash })
  address.listen(hash => {
    if (saysOther(hash)) return location.reload()
    if (!/[?&]lesson(&|$)/.test(hash)) endEmbed()
    open(readPlace(plainHash()))
  })
  addEventListener('online', () => {
    if (getState().whole === 'missing') void bringWhole()
  })
  // What is taken away, or left, is never of two inputs.
  for (const use of ['click', 'copy', 'pagehide', 'visibilitychange']) addEventListener(use, settle, true)
  followPreferences()
}

/** What is chosen in another tab counts here too, but for a lesson, which its author wrote. */
function followPreferences(): void {
  whenPreferencesChange(({ settings, theme }) => {
    if (filling()?.embed) return
    const { settings: own, theme: shown } = getState()
    if (theme !== shown) followTheme(theme)
    if (JSON.stringify(settings) !== JSON.stringify(own)) followSettings(settings)
  })
}

/** What stands in the address, which names no language from here on. */
function plainHash(): string {
  const plain = withoutLanguage(location.hash)
  if (plain !== location.hash) address.begin(plain)
  return plain
}

/** The address wins over what a saved page begins with, even where it says no more than `#`. */
function startHash(): string {
  const { hash } = beginning()
  plainHash()
  if (location.href.includes('#') || typeof hash !== 'string' || hash === '') return location.hash
  address.begin(hash)
  return hash
}

/** What waits for the whole engine to be opened. */
let waiting: Place | null = null

/** Has the whole engine come, after what is on the screen; opens what waits for it. */
export async function bringWhole(): Promise<void> {
  if (getState().whole === 'here') return
  setState({ whole: 'coming' })
  try {
    await wholeEngine()
  } catch {
    setState({ whole: 'missing' })
    return
  }
  setState({ whole: 'here' })
  if (waiting !== null) open(waiting)
}

function open(opened: Place): void {
  waiting = null
  const place = hiding(opened)
  if (place.kind === 'calculator' && !hasCalculator(place.filling.calculator)) {
    waiting = place
    void bringWhole()
  }
  leave()
  if (place.kind === 'calculator' || place.kind === 'entry') {
    const [embed, settings] = place.kind === 'entry' ? [place.embed, null] : [place.filling.embed, place.settings]
    if (embed !== null) beginEmbed(embed, settings)
    else endEmbed()
  }
  setOpened(place.kind === 'calculator' ? place.filling : null)
  const { settings } = getState()
  const next =
    place.kind === 'calculator' && place.settings !== null && waiting === null
      ? translated(place, place.settings, settings)
      : place
  stopDrawing()
  noteVisit()
  if (next.kind === 'calculator' && waiting === null) noteOpened(next.filling)
  setState({
    place: next,
    blank: {},
    answer: null,
    good: null,
    lead: null,
    held: [],
    backwards: null,
    cures: [],
    asking: false,
    full: false,
  })
  showBlank()
  refresh()
}

/** Which fields a compact lesson hides, its calculator knows. */
function hiding(place: Place): Place {
  if (place.kind !== 'calculator' || place.filling.embed === null) return place
  const { filling } = place
  const fields = descriptionOf(filling.calculator, DEFAULTS)?.fields ?? []
  const embed = withHidden(
    place.filling.embed,
    fields.map(({ id }) => id),
  )
  return { ...place, filling: { ...filling, embed } }
}

/** A lesson is shown as its author wrote it, whatever the reader has chosen elsewhere. */
function beginEmbed({ working, theme }: Embed, settings: Settings | null): void {
  const to = settings ?? DEFAULTS
  showTheme(theme)
  document.documentElement.dataset['lesson'] = ''
  setState({ settings: to, working })
}

function endEmbed(): void {
  const { dataset } = document.documentElement
  if (dataset['lesson'] === undefined) return
  delete dataset['lesson']
  setState({ settings: loadPreferences().settings })
  showTheme(getState().theme)
}
