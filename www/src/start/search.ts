// The search over everything. It is a script of its own, which comes when
// somebody searches: what the first screen shows does not wait for it.

import MiniSearch, { type Query } from 'minisearch'
import type { Sought, SoughtFilling } from '../../generated/contract'
import { makeTerms, type Lexicon, type Terms } from './terms'

/** What can be found. */
export interface Findable {
  readonly title: string
  /** Each other name for it. */
  readonly also: readonly string[]
  /** What else is said of it. */
  readonly said: readonly string[]
  /** The calculator that it is, if it is one. */
  readonly calculator: string | null
  /** How soon it comes among equals. */
  readonly prior: number
}

/** What was found, as places in what was given, the nearest first. */
export interface Found {
  readonly places: readonly number[]
  /** Whether the first has every word that was asked for, as it was written. */
  readonly exact: boolean
}

export type Search = (text: string, sought: Sought) => Found

/** At least this many letters say enough to be looked for in the middle of a word. */
const MIDDLE = 3
/** No question is so long, in characters: what is finds nothing, and is not compared with everything. */
const LONGEST = 200
/** How many are shown at most, and how near they have to be, as a share of the first. */
const MOST = 30
const NEAR = 0.3
/** A slip for about every third letter. */
const SLIPS = 0.34
/** A name weighs more than a mention. */
const WEIGHTS = { title: 5, also: 3, said: 1 }

/** What the share of the words that something has, at most 1, is compared with. */
const FILLED = 0.6
const NAMED = 0.5
const BEGINS = 0.2
const NUMBERS = 0.1
/** Where there is nothing but numbers. */
const NUMBERS_ALONE = 0.5
/** A word that chose an answer is as good as one in a name. */
const CHOSE = 0.8

type Scores = ReadonlyMap<number, number>

/** A word of the question, and how well everything answers to it. */
interface Asked {
  readonly term: string
  readonly exact: boolean
  readonly scores: Scores
}

/** A question, looked up word by word. */
interface Question {
  readonly asked: readonly Asked[]
  readonly numbers: Scores
  readonly sought: Sought
  /** All of it in one. */
  readonly whole: string
}

interface Index {
  readonly terms: Terms
  /** Every word that stands anywhere. */
  readonly known: ReadonlySet<string>
  scores(query: Query): Scores
}

export function makeSearch(all: readonly Findable[], lexicon: Lexicon): Search {
  const terms = makeTerms(lexicon)
  const index = makeIndex(all, terms)
  const names = all.map(({ title, also }) => [title, ...also].map(name => terms.of(name).join(' ')))
  return (text, sought) => {
    if (text.length > LONGEST) return { places: [], exact: false }
    const question = lookUp(text, sought, index)
    const found = all
      .map((one, place) => ({ place, ...nearness(one, place, names[place] ?? [], question, terms) }))
      .filter(({ near }) => near > 0)
      .sort((a, b) => b.near - a.near)
    const [first] = found
    const places = found.filter(({ near }) => near >= NEAR * (first?.near ?? 0)).map(({ place }) => place)
    return {
      places: places.slice(0, MOST),
      exact: first !== undefined && first.hasAll && question.asked.every(({ exact }) => exact),
    }
  }
}

function makeIndex(all: readonly Findable[], terms: Terms): Index {
  const known = new Set<string>()
  const index = new MiniSearch<{ id: number; title: string; also: string; said: string }>({
    fields: ['title', 'also', 'said'],
    tokenize: text => terms.of(text),
    processTerm: term => {
      known.add(term)
      return term
    },
    searchOptions: { tokenize: text => [text], processTerm: term => term, boost: WEIGHTS },
  })
  index.addAll(all.map(({ title, also, said }, id) => ({ id, title, also: also.join(' '), said: said.join(' ') })))
  return { terms, known, scores: query => new Map(index.search(query).map(({ id, score }) => [id as number, score])) }
}

function lookUp(text: string, sought: Sought, index: Index): Question {
  const { terms } = index
  const rest = sought.numbers.reduce((rest, number) => rest.replace(number, ' '), text)
  const numbers = sought.numbers.flatMap(number => terms.of(number))
  const spoken = terms.of(rest)
  // What is nothing but idle words is looked for all the same.
  const words = [...new Set(spoken.length + numbers.length > 0 ? spoken : terms.all(rest))]
  const combineWith = words.length === 0 ? 'AND' : 'OR'
  return {
    asked: words.map(term => lookUpWord(term, index)),
    numbers: numbers.length === 0 ? new Map() : shares(index.scores({ queries: numbers, combineWith })),
    sought,
    whole: [...words, ...numbers].join(' '),
  }
}

/** A word as it was written, in the middle of others, or with slips. */
function lookUpWord(term: string, { known, scores }: Index): Asked {
  const asked = (query: Query, exact: boolean) => ({ term, exact, scores: shares(scores(query)) })
  const all = [...known]
  if (all.some(word => word.startsWith(term))) return asked({ queries: [term], prefix: true }, true)
  const within = term.length < MIDDLE ? [] : all.filter(word => word.includes(term))
  if (within.length > 0) return asked({ queries: within }, true)
  return asked({ queries: [term], prefix: true, fuzzy: SLIPS }, false)
}

/** Each word counts the same, however rare it is: the best has 1, and whatever has it at all half of that. */
function shares(scores: Scores): Scores {
  const best = Math.max(...scores.values(), Number.MIN_VALUE)
  return new Map([...scores].map(([place, score]) => [place, 0.5 + (0.5 * score) / best]))
}

/** How near something is to the question; 0 where it has nothing of it. */
function nearness(one: Findable, place: number, names: readonly string[], question: Question, terms: Terms) {
  const { asked, numbers, sought, whole } = question
  const filling = sought.fillings.find(({ calculator }) => calculator === one.calculator)
  const chose = new Set(filling?.used.flatMap(phrase => terms.of(phrase)))
  const shares = asked.map(({ term, scores }) => Math.max(scores.get(place) ?? 0, chose.has(term) ? CHOSE : 0))
  const count = Math.max(asked.length, 1)
  const had = shares.filter(share => share > 0).length
  const share = shares.reduce((sum, share) => sum + share, 0) / count
  const near =
    (had / count) * share +
    // Numbers alone say little of what is meant: many take a length.
    FILLED * filledShare(filling, sought) * (asked.length === 0 ? 1 : had / count) +
    (numbers.get(place) ?? 0) * (asked.length === 0 ? NUMBERS_ALONE : NUMBERS) +
    nameShare(names, whole)
  return { near: near === 0 ? 0 : near + one.prior, hasAll: had === asked.length }
}

function filledShare(filling: SoughtFilling | undefined, { numbers }: Sought): number {
  return filling === undefined || numbers.length === 0 ? 0 : filling.numbers / numbers.length
}

function nameShare(names: readonly string[], whole: string): number {
  if (whole === '') return 0
  if (names.includes(whole)) return NAMED
  return names.some(name => name.startsWith(whole)) ? BEGINS : 0
}
