// The address of a screen: short, readable, with a version.
//
//   #1/<calculator>/<values>/<held>/<held>/<held>?in=…&want=<reading>:<text>&field=<field>
//                                                &tol=<percent>,<kind>:<percent>&draws=<count>
//                                                &lesson&open=<fields>&lock=<fields>&hide=<fields>&show=working&theme=<theme>
//   #1/look-up/<entry>?lesson&theme=<theme>
//   #1/stage/<view>
//   #1/fault…, of which the finder of faults reads the rest (www/src/fault/address.ts)
//   #1/lesson…, of which the lessons read the rest (www/src/lesson/address.ts)
//   #1/?find=<text>
//
// Behind any of them `language=es` may stand, which www/src/base/language.ts reads; none is ever written.
//
// No more than LONGEST characters of it are read, and no more are written.
//
// A value set is `field=text&field=text` and names only fields that differ from
// their defaults, with the text as it was typed. `in` names the settings under
// which these texts and the wanted one were written, where they differ from those
// of DEFAULTS.
// `tol` turns tolerances on: `usual`, or one for all, and those of single kinds;
// `draws` is left out where it is the usual number of the engine.
// `lesson` is for the frame in a lesson's page; `open`, `lock` and `hide` name fields,
// separated by commas. Where `open` stands, what it and `lock` do not name is hidden.

import { constants, type Link, type Settings } from '../../generated/contract'
import { withHidden, type Embed } from './embed'
import { withoutLanguage } from '../base/language'
import { isLong } from '../base/limit'
import { DEFAULTS, readSettings, writeSettings } from './settings'
import { THEMES } from './theme'

export const VERSION = '1'
export const MOST_HELD = 3
/** In the place of a calculator: what follows is an entry to look up. */
const LOOK_UP = 'look-up'
/** In the same place: what this page is. */
const ABOUT = 'about'
const USUAL = 'usual'
/** What may be said of a lesson, beside that it is one. */
const LESSON = ['open', 'lock', 'hide', 'show', 'theme']
/** In the same place: the whole stage. */
const STAGE = 'stage'
/** In the same place: screens that read the rest themselves. */
const OWN = ['fault', 'lesson'] as const
/** All that may be said behind the values. */
const KEYS = ['in', 'want', 'field', 'tol', 'draws', 'lesson', ...LESSON]
const UTF_8 = new TextEncoder()
const NO_EMBED: Embed = { open: null, locked: [], hidden: [], working: false, theme: 'system' }

/** What was put into the fields that differ from their defaults, by field. */
export type Texts = Readonly<Record<string, string>>

/** A question asked backwards: the reading, its wanted value, the field to change. */
export interface Want {
  readonly reading: string
  readonly text: string
  readonly field: string
}

/** The tolerances of parts: in percent by kind of part, field or `all`, where not usual. */
export interface Tolerance {
  readonly percent: Readonly<Record<string, number>>
  readonly draws: number
}

/** What the screen of a calculator shows. */
export interface Filling {
  readonly calculator: string
  readonly current: Texts
  readonly held: readonly Texts[]
  readonly want: Want | null
  readonly tolerance: Tolerance | null
  /** In the page of a lesson: what its author fixed. */
  readonly embed: Embed | null
}

export type Place =
  | {
      readonly kind: 'list'
      /** What is searched for. */
      readonly find: string
    }
  | { readonly kind: 'entry'; readonly id: string; readonly embed: Embed | null }
  | { readonly kind: 'about' }
  | {
      readonly kind: 'stage'
      /** Which of its views; empty for the first. */
      readonly view: string
    }
  | {
      readonly kind: (typeof OWN)[number]
      /** What stands behind its name, as it stood. */
      readonly rest: string
    }
  | {
      /** Of a form that is not known, or too long. */
      readonly kind: 'unread'
      readonly raw: string
    }
  | {
      readonly kind: 'calculator'
      readonly filling: Filling
      /** The settings of the link; nothing where it depends on none. */
      readonly settings: Settings | null
      /** Pieces that could not be taken over, as they stood. */
      readonly spare: readonly string[]
    }

/** A calculator that was just opened. */
export function fresh(calculator: string, current: Texts = {}): Filling {
  return { calculator, current, held: [], want: null, tolerance: null, embed: null }
}

/** The start, with nothing searched for. */
export const START: Place = { kind: 'list', find: '' }

/** The address of the screen about the page itself. */
export function writeAbout(): string {
  return `#${VERSION}/${ABOUT}`
}

/** The address of a view of the stage. */
export function writeStage(view = ''): string {
  return `#${VERSION}/${STAGE}${view === '' ? '' : `/${view}`}`
}

/** The address of the finder of faults, with what it reads itself. */
export function writeFault(rest = ''): string {
  return `#${VERSION}/fault${rest}`
}

/** The address of a lesson, with what it reads itself; that of the lessons without. */
export function writeLesson(rest = ''): string {
  return `#${VERSION}/lesson${rest}`
}

/** A screen whose script comes once it is wanted. */
export type LatePlace = Extract<Place, { readonly kind: 'stage' | 'fault' | 'lesson' }>

export function isLate(place: Place): place is LatePlace {
  return place.kind === STAGE || OWN.some(kind => kind === place.kind)
}

export function readPlace(hash: string): Place {
  // Half a character, which a file may have, is none to a browser's address either.
  const raw = withoutLanguage(hash)
    .replace(/^#/, '')
    .replace(/\p{Cs}/gu, '\ufffd')
  if (raw === '') return START
  const unread: Place = { kind: 'unread', raw }
  if (isLong(raw)) return unread
  const [path, query] = split(raw, '?')
  const [version, name = '', ...sets] = path.split('/')
  if (version !== VERSION) return unread
  const calculator = decoded(name)
  const own = OWN.find(kind => kind === calculator)
  if (own !== undefined) return { kind: own, rest: raw.slice(VERSION.length + 1 + own.length) }
  if (calculator === STAGE) return { kind: 'stage', view: sets[0] ?? '' }
  const id = calculator === LOOK_UP ? (sets.shift() ?? '') : ''
  if (calculator !== '' && calculator !== ABOUT && calculator !== LOOK_UP) return readFilling(calculator, sets, query)
  const [find] = /^(find=.*)?$/s.exec(query) ?? []
  // What stands behind and means nothing here is not left out in silence.
  if (sets.some(set => set !== '')) return unread
  if (id !== '' && /^((lesson|theme=\w+)(&|$))*$/.test(query)) return readEntry(id, query) ?? unread
  if (find === undefined || (calculator !== '' && find !== '')) return unread
  if (calculator === ABOUT) return { kind: 'about' }
  return { kind: 'list', find: unescaped(split(find, '=')[1]) }
}

/** An entry, alone or in the frame of a lesson; nothing where more is said than means something there. */
function readEntry(id: string, query: string): Place | null {
  const spare: string[] = []
  const embed = readEmbed(readQuery(query, spare), [], spare)
  return spare.length > 0 ? null : { kind: 'entry', id: decoded(id), embed }
}

function readQuery(query: string, spare: string[]): Map<string, string> {
  const said = new Map<string, string>()
  for (const piece of query.split('&').filter(piece => piece !== '')) {
    const [key] = split(piece, '=')
    if (KEYS.includes(key)) putLast(said, key, piece, spare)
    else spare.push(piece)
  }
  return said
}

function readFilling(calculator: string, sets: readonly string[], query: string): Place {
  const spare: string[] = []
  const [current = {}, ...held] = sets.slice(0, 1 + MOST_HELD).map(set => readTexts(set, spare))
  for (const set of sets.slice(1 + MOST_HELD)) if (set !== '') spare.push(set)

  const said = readQuery(query, spare)
  const written = valueOf(said, 'in')
  const want = readWant(said, spare)
  const texts = [...sets, want?.text.trim() ?? '']
  const bare = texts.every(text => text === '') && written === undefined
  return {
    kind: 'calculator',
    filling: {
      calculator,
      current,
      held,
      want,
      tolerance: readTolerance(said, spare),
      embed: readEmbed(said, [current, ...held].flatMap(Object.keys), spare),
    },
    settings: bare ? null : readSettings(written ?? '', spare),
    spare,
  }
}

/** Of what is there twice the last counts. */
function putLast(pieces: Map<string, string>, key: string, piece: string, spare: string[]): void {
  const earlier = pieces.get(key)
  if (earlier !== undefined) spare.push(earlier)
  pieces.set(key, piece)
}

function valueOf(said: ReadonlyMap<string, string>, key: string): string | undefined {
  const piece = said.get(key)
  return piece === undefined ? undefined : split(piece, '=')[1]
}

function readWant(said: ReadonlyMap<string, string>, spare: string[]): Want | null {
  const wanted = valueOf(said, 'want')
  const field = said.get('field')
  if (wanted === undefined) {
    if (field !== undefined) spare.push(field)
    return null
  }
  const [reading, text] = split(wanted, ':')
  return { reading: decoded(reading), text: unescaped(text), field: decoded(valueOf(said, 'field') ?? '') }
}

function readTolerance(said: ReadonlyMap<string, string>, spare: string[]): Tolerance | null {
  const percent = valueOf(said, 'tol')
  const draws = valueOf(said, 'draws')
  const counts = draws !== undefined && /^\d{1,6}$/.test(draws)
  if (draws !== undefined && (percent === undefined || !counts)) spare.push(`draws=${draws}`)
  if (percent === undefined) return null
  return { percent: readPercent(percent, spare), draws: counts ? Number(draws) : constants.draws.usual }
}

/** The address that a link of an answer leads to. */
export function writeLink({ calculator, values }: Link, settings: Settings): string {
  return writePlace(fresh(calculator, Object.fromEntries(values)), settings)
}

/** The address of an entry to look up. */
export function writeEntry(id: string, embed: Embed | null = null): string {
  const query = embed === null ? '' : `?${writeEmbed(embed).join('&')}`
  return `#${VERSION}/${LOOK_UP}/${encodeURIComponent(id)}${query}`
}

/** The address of a screen; null where it would be too long to be read again. */
export function linkOf(filling: Filling, settings: Settings): string | null {
  const texts = [filling.current, ...filling.held].flatMap(set => Object.values(set))
  // Written out, a text is never shorter: what is that long need not be.
  if ([...texts, filling.want?.text ?? ''].some(isLong)) return null
  const hash = writePlace(filling, settings)
  return isLong(hash) ? null : hash
}

/** The address of the start with a text that is searched for. */
export function writeFind(text: string): string {
  return text === '' ? '' : `#${VERSION}/?find=${escaped(text)}`
}

export function writePlace(filling: Filling, settings: Settings = DEFAULTS): string {
  const sets = [filling.current, ...filling.held].map(writeTexts)
  // A held set that says nothing holds the defaults; a lone one is left out.
  if (sets.length === 1 && sets[0] === '') sets.pop()
  const query = []
  const written = writeSettings(settings)
  if (written !== '') query.push(`in=${written}`)
  if (filling.want !== null) {
    query.push(`want=${encodeURIComponent(filling.want.reading)}:${escaped(filling.want.text)}`)
    if (filling.want.field !== '') query.push(`field=${encodeURIComponent(filling.want.field)}`)
  }
  if (filling.tolerance !== null) {
    const { percent, draws } = filling.tolerance
    query.push(`tol=${writePercent(percent)}`)
    if (draws !== constants.draws.usual) query.push(`draws=${draws}`)
  }
  if (filling.embed !== null) query.push(...writeEmbed(filling.embed))
  const path = [VERSION, encodeURIComponent(filling.calculator), ...sets].join('/')
  return `#${path}${query.length > 0 ? `?${query.join('&')}` : ''}`
}

function writeEmbed({ open, locked, hidden, working, theme }: Embed): string[] {
  const names = (key: string, ids: readonly string[]) =>
    ids.length === 0 ? [] : [`${key}=${ids.map(encodeURIComponent).join(',')}`]
  return [
    'lesson',
    ...(open === null ? [] : open.length === 0 ? ['open'] : names('open', open)),
    ...names('lock', locked),
    ...(open === null ? names('hide', hidden) : []),
    ...(working ? ['show=working'] : []),
    ...(theme === NO_EMBED.theme ? [] : [`theme=${theme}`]),
  ]
}

/** What its author fixed; of what is filled in, the fields that a compact frame does not name are hidden. */
function readEmbed(said: ReadonlyMap<string, string>, filled: readonly string[], spare: string[]): Embed | null {
  const lesson = said.get('lesson')
  if (lesson === undefined) {
    spare.push(...LESSON.flatMap(key => said.get(key) ?? []))
    return null
  }
  const { theme } = NO_EMBED
  const wanted = valueOf(said, 'theme') ?? theme
  const known = THEMES.find(theme => theme === wanted)
  const shown = valueOf(said, 'show') ?? ''
  if (lesson !== 'lesson') spare.push(lesson)
  if (known === undefined) spare.push(`theme=${wanted}`)
  if (shown !== '' && shown !== 'working') spare.push(`show=${shown}`)
  const embed = {
    open: said.has('open') ? readNames(valueOf(said, 'open') ?? '') : null,
    locked: readNames(valueOf(said, 'lock') ?? ''),
    hidden: readNames(valueOf(said, 'hide') ?? ''),
    working: shown === 'working',
    theme: known ?? theme,
  }
  return withHidden(embed, filled)
}

function readNames(text: string): string[] {
  return text.split(',').filter(Boolean).map(decoded)
}

function readPercent(text: string, spare: string[]): Record<string, number> {
  const percent = new Map<string, number>()
  const pieces = new Map<string, string>()
  for (const piece of text.split(',')) {
    // As any number is written, however small or large.
    const [, id = constants.all_parts, written] = /^(?:([\w-]+):)?(\d+(?:\.\d+)?(?:e[+-]?\d+)?)$/.exec(piece) ?? []
    const number = Number(written)
    if (Number.isFinite(number)) {
      putLast(pieces, id, `tol=${piece}`, spare)
      percent.set(id, number)
    } else if (piece !== USUAL && piece !== '') spare.push(`tol=${piece}`)
  }
  return Object.fromEntries(percent)
}

function writePercent(percent: Readonly<Record<string, number>>): string {
  const pieces = Object.entries(percent).map(([id, number]) =>
    id === constants.all_parts ? `${number}` : `${id}:${number}`,
  )
  return pieces.join(',') || USUAL
}

/** A value set of an address; what of it says nothing goes to `spare`. */
export function readTexts(set: string, spare: string[]): Texts {
  const texts = new Map<string, string>()
  const pieces = new Map<string, string>()
  for (const piece of set.split('&').filter(piece => piece !== '')) {
    const [written, text] = split(piece, '=')
    if (written === '' || !piece.includes('=')) {
      spare.push(piece)
      continue
    }
    const id = decoded(written)
    putLast(pieces, id, piece, spare)
    texts.set(id, unescaped(text))
  }
  return Object.fromEntries(texts)
}

export function writeTexts(texts: Texts): string {
  return Object.entries(texts)
    .map(([id, text]) => `${encodeURIComponent(id)}=${escaped(text)}`)
    .join('&')
}

/** What stands before and after the first `mark`. */
export function split(text: string, mark: string): [string, string] {
  const at = text.indexOf(mark)
  return at < 0 ? [text, ''] : [text.slice(0, at), text.slice(at + 1)]
}

// Spaces and the ohm would be spelled out in percents; both have a short form
// here, and the short form's own letters are
// spelled out instead, so that every text comes back as it was.
function escaped(text: string): string {
  return text.replace(/ohm|[^A-Za-z0-9.,:;+*@-]/gu, piece => {
    if (piece === ' ') return '_'
    if (piece === 'Ω') return 'ohm'
    if (piece === 'ohm') return '%6Fhm'
    return [...UTF_8.encode(piece)].map(byte => `%${byte.toString(16).toUpperCase().padStart(2, '0')}`).join('')
  })
}

function unescaped(text: string): string {
  return decoded(text.replaceAll('_', ' ').replaceAll('ohm', 'Ω'))
}

export function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
