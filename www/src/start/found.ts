// What can be found, and what was.

import type { Description, LookUpEntry, LookUpKind, Settings, Sought } from '../../generated/contract'
import { pieceOf } from '../base/piece'
import { say, type Told } from '../base/words'
import { seekIn, wholeEngine } from '../engine/engine'
import { entriesFor } from '../engine/entries'
import { kindName } from '../look-up/kind'
import { allDescriptions } from '../screen/descriptions'
import { fresh, writeEntry, writeFault, writeLesson, writePlace, writeStage } from '../screen/link'
import { translate } from '../screen/translate'
import type { Findable, Search, makeSearch } from './search'

/** Something that can be found, as a link. */
export interface Item {
  readonly title: string
  readonly text: string
  readonly href: string
  readonly calculator: string | null
  readonly kind: LookUpKind | 'calculator' | 'example'
  /** What of the question is filled in. */
  readonly fills: readonly string[]
}

export interface Results {
  readonly items: readonly Item[]
  /** How many there are to be found. */
  readonly all: number
  readonly exact: boolean
}

interface Index {
  readonly settings: Settings
  readonly items: readonly Item[]
  readonly search: Search
}

const piece = pieceOf<typeof makeSearch>('search')
let index: Index | null = null

/** Fetches what searches, and what it asks. */
export async function prepareSearch(): Promise<void> {
  await Promise.all([piece.want(), wholeEngine()])
}

export function calculatorItem({ id, title, purpose }: Told, settings: Settings): Item {
  return { title, text: purpose, href: writePlace(fresh(id), settings), calculator: id, kind: 'calculator', fills: [] }
}

/** Finds the nearest to a question; nothing until what searches has come. */
export function find(text: string, settings: Settings): Results | null {
  const make = piece.here()
  if (make === null) return null
  index = index?.settings === settings ? index : makeIndex(settings, make)
  const { items, search } = index
  const sought = seekIn(text, settings)
  const { places, exact } = search(text, sought)
  return { items: places.flatMap(place => filled(items[place], sought, settings)), all: items.length, exact }
}

/** A calculator with what the question says of its fields. */
function filled(item: Item | undefined, { fillings }: Sought, settings: Settings): Item[] {
  if (item === undefined) return []
  const filling = item.kind === 'calculator' && fillings.find(({ calculator }) => calculator === item.calculator)
  if (!filling) return [item]
  return [
    {
      ...item,
      href: writePlace(fresh(filling.calculator, Object.fromEntries(filling.values)), settings),
      // Some fields are questions themselves.
      fills: filling.shown.map(({ name, text }) =>
        say(name.endsWith('?') ? 'find-answers' : 'find-fills', { name, text }),
      ),
    },
  ]
}

function makeIndex(settings: Settings, make: typeof makeSearch): Index {
  const all = [
    ...allDescriptions(settings).flatMap(description => [
      ofCalculator(description, settings),
      ...ofExamples(description, settings),
    ]),
    ofLate(writeStage(), say('plan'), say('plan-purpose'), say('plan-also')),
    ofLate(writeFault(), say('seek'), say('seek-purpose'), say('seek-also')),
    ofLate(writeLesson(), say('learn'), say('learn-purpose'), say('learn-also')),
    ...entriesFor(settings).map(ofEntry),
  ]
  return {
    settings,
    items: all.map(({ item }) => item),
    search: make(
      all.map(({ findable }) => findable),
      of => say(`find-${of}`),
    ),
  }
}

/** The plan of a whole stage, or the finder of faults. */
function ofLate(href: string, title: string, text: string, also: string): Known {
  return {
    item: { title, text, href, calculator: null, kind: 'calculator', fills: [] },
    findable: { title, also: also.split(','), said: [text], calculator: null, prior: 0.1 },
  }
}

interface Known {
  readonly item: Item
  readonly findable: Findable
}

function ofCalculator(description: Description, settings: Settings): Known {
  const { id, title, also, purpose, fields, presets } = description
  const said = [purpose, ...fields.flatMap(({ name, group }) => [name, group]), ...presets.map(({ name }) => name)]
  return {
    item: calculatorItem(description, settings),
    findable: { title, also: [...also.split(','), id], said, calculator: id, prior: 0.25 },
  }
}

/** Each opens its calculator with the values of the example, and with what is held beside them. */
function ofExamples({ id, title, presets }: Description, settings: Settings): Known[] {
  const written: Settings = { ...settings, decimal: 'point', length: 'metre' }
  const texts = (values: readonly (readonly [string, string])[]) =>
    translate(id, { texts: Object.fromEntries(values), want: null }, written, settings).texts
  return presets.map(({ name, values, held }) => {
    const href = writePlace({ ...fresh(id, texts(values)), held: held.map(texts) }, settings)
    return {
      item: { title: name, text: title, href, calculator: null, kind: 'example', fills: [] },
      findable: { title: name, also: [], said: [title], calculator: null, prior: 0 },
    }
  })
}

function ofEntry({ id, kind, title, also, text, warnings, faces, wiring }: LookUpEntry): Known {
  const wired = faces.length > 0 || wiring !== null ? [say('find-wired')] : []
  return {
    item: { title, text: text[0] ?? '', href: writeEntry(id), calculator: null, kind, fills: [] },
    findable: {
      title,
      also: also.split(','),
      said: [...text, ...warnings, kindName(kind), ...wired],
      calculator: null,
      prior: 0.05,
    },
  }
}
