// What the finder of faults has of its address, behind `#1/fault`:
//
//   /<symptom>.<scope>/<values>?did=<step>:<outcome>,<step>:?&now=<step>&odds=<cause>:<times>&danger&in=…
//
// `did` has the steps that were done, in order, with what came of each, or `?` where
// nobody knows. `now` names a step that is done in place of the next one. `odds` says how
// much more common causes are than judged here. Values are those of a whole line, written
// under the settings that `in` names. What was heard stands in no address.

import type { Settings } from '../../generated/contract'
import { decoded, readTexts, split, writeTexts, type Texts } from '../screen/link'
import { DEFAULTS, readSettings, writeSettings } from '../screen/settings'

/** A step that was done, and what came of it; nothing where nobody knows. */
export interface Done {
  readonly step: string
  readonly outcome: string | null
}

export interface Search {
  /** Whether something tingles, sparks, smells or trips. */
  readonly danger: boolean
  /** What is heard, and on how much of the desk; empty until it is said. */
  readonly symptom: string
  readonly scope: string
  /** The line, as far as it differs from the defaults of the whole line. */
  readonly texts: Texts
  /** The settings under which these texts are written. */
  readonly settings: Settings
  readonly done: readonly Done[]
  /** The step that is chosen in place of the next one; else empty. */
  readonly now: string
  /** How many times as common as judged; nothing where this device has its own. */
  readonly times: Readonly<Record<string, number>> | null
  /** Pieces that could not be taken over, as they stood. */
  readonly spare: readonly string[]
}

/** What is searched for faults. */
export const WHOLE_LINE = 'whole-line'
/** Nobody changes the odds by more than this. */
export const MOST_TIMES = 1000
/** More steps than there are tests and cures nobody does. */
const MOST_DONE = 200
const NAME = /^[a-z][a-z0-9-]*$/
const KEYS = ['did', 'now', 'odds', 'danger', 'in']
/** What the frame of a lesson says, for the page around the finder. */
const OF_LESSON = ['lesson', 'theme']

export function readSearch(rest: string): Search {
  const spare: string[] = []
  const [path, query] = split(rest, '?')
  const [before = '', what = '', set = '', ...behind] = path.split('/')
  const [symptom, scope] = split(decoded(what), '.')
  spare.push(...[before, ...behind].filter(piece => piece !== ''))
  const texts = readTexts(set, spare)
  const said = new Map<string, string>()
  for (const piece of query.split('&').filter(piece => piece !== '')) {
    const [key, value] = split(piece, '=')
    if (KEYS.includes(key) && !said.has(key)) said.set(key, value)
    else if (!OF_LESSON.includes(key)) spare.push(piece)
  }
  return {
    danger: said.has('danger'),
    symptom: named(symptom, spare),
    scope: named(scope, spare),
    texts,
    settings: readSettings(said.get('in') ?? '', spare),
    done: readDone(said.get('did') ?? '', spare),
    now: named(decoded(said.get('now') ?? ''), spare),
    times: readTimes(said.get('odds') ?? '', spare),
    spare,
  }
}

export function writeSearch({ danger, symptom, scope, texts, settings, done, now, times }: Search): string {
  const query = []
  if (done.length > 0) query.push(`did=${done.map(({ step, outcome }) => `${step}:${outcome ?? '?'}`).join(',')}`)
  if (now !== '') query.push(`now=${now}`)
  const odds = Object.entries(times ?? {}).map(([cause, times]) => `${cause}:${times}`)
  if (odds.length > 0) query.push(`odds=${odds.join(',')}`)
  if (danger) query.push('danger')
  const written = writeSettings(settings)
  if (written !== '') query.push(`in=${written}`)
  const what = scope === '' ? symptom : `${symptom}.${scope}`
  const path = [what, writeTexts(texts)]
  while (path.at(-1) === '') path.pop()
  return `${path.map(piece => `/${piece}`).join('')}${query.length > 0 ? `?${query.join('&')}` : ''}`
}

/** The search that nothing is said of yet. */
export const NOTHING: Search = {
  danger: false,
  symptom: '',
  scope: '',
  texts: {},
  settings: DEFAULTS,
  done: [],
  now: '',
  times: null,
  spare: [],
}

/** Whether two lines are the same. */
export function isSame(one: Texts, other: Texts): boolean {
  const keys = Object.keys(one)
  return keys.length === Object.keys(other).length && keys.every(key => one[key] === other[key])
}

/** An identifier, or nothing where it can be none. */
function named(text: string, spare: string[]): string {
  if (text === '' || NAME.test(text)) return text
  spare.push(text)
  return ''
}

function readDone(text: string, spare: string[]): Done[] {
  const done: Done[] = []
  for (const piece of text.split(',').filter(piece => piece !== '')) {
    const [step, outcome] = split(decoded(piece), ':')
    const isNew = done.length < MOST_DONE && done.every(other => other.step !== step)
    if (isNew && NAME.test(step) && outcome === '?') done.push({ step, outcome: null })
    else if (isNew && NAME.test(step) && NAME.test(outcome)) done.push({ step, outcome })
    else spare.push(`did=${piece}`)
  }
  return done
}

function readTimes(text: string, spare: string[]): Record<string, number> | null {
  const times = new Map<string, number>()
  for (const piece of text.split(',').filter(piece => piece !== '')) {
    const [cause, written] = split(decoded(piece), ':')
    const number = Number(written)
    const isGood = written !== '' && number >= 0 && number <= MOST_TIMES
    if (NAME.test(cause) && isGood && !times.has(cause)) times.set(cause, number)
    else spare.push(`odds=${piece}`)
  }
  return times.size === 0 ? null : Object.fromEntries(times)
}
