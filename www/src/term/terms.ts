// Terms of the reference, found in the names of readings and fields. They are asked
// of the engine once the page has nothing better to do, or once somebody wants one.

import { useEffect, useState } from 'preact/hooks'
import type { LookUpEntry, Settings } from '../../generated/contract'
import { whenIdle } from '../base/idle'
import { entriesFor } from '../engine/entries'
import { useStore } from '../screen/store'

interface Term {
  readonly entry: LookUpEntry
  /** Finds it in a text, by its title or by another name that can mean nothing else. */
  readonly named: RegExp
}

/** A part of a name that is a term. */
export interface Found {
  readonly before: string
  readonly words: string
  readonly after: string
  readonly entry: LookUpEntry
}

let known: { readonly of: readonly LookUpEntry[]; readonly terms: readonly Term[] } | null = null

function termsFor(settings: Settings): readonly Term[] {
  const entries = entriesFor(settings)
  if (known?.of !== entries) {
    const terms = entries.filter(({ kind }) => kind === 'term').map(entry => ({ entry, named: pattern(entry) }))
    known = { of: entries, terms }
  }
  return known.terms
}

/** Words that end like this are the same term. */
const ENDINGS = '(?:s|es)?'

function pattern({ title, also }: LookUpEntry): RegExp {
  // A single word among the others may mean much; several, or capitals, mean this.
  const sure = also.split(', ').filter(name => /\S[ -]\S/.test(name) || /^[A-Z]{2,}$/.test(name))
  const names = [title, ...sure].map(name => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/[ -]/g, '[ -]'))
  names.sort((a, b) => b.length - a.length)
  return new RegExp(`(?<![\\p{L}\\d])(?:${names.join('|')})${ENDINGS}(?![\\p{L}\\d])`, 'iu')
}

/** The longest term in a name. */
function findTerm(name: string, settings: Settings): Found | null {
  let best: Found | null = null
  for (const { entry, named } of termsFor(settings)) {
    const match = named.exec(name)
    if (match === null || match[0].length <= (best?.words.length ?? 0)) continue
    const end = match.index + match[0].length
    best = { before: name.slice(0, match.index), words: match[0], after: name.slice(end), entry }
  }
  return best
}

/** Whether terms may be looked for without making anybody wait. */
let ready = false
const waiting = new Set<() => void>()

function getReady(): void {
  whenIdle(() => {
    ready = true
    for (const tell of waiting) tell()
    waiting.clear()
  })
}

/** The term in a name that somebody asks about, once the whole engine is here. */
export function useAskedTerm(name: string): Found | null {
  const settings = useStore(state => state.settings)
  const isWhole = useStore(({ whole }) => whole === 'here')
  return isWhole ? findTerm(name, settings) : null
}

/** The term in a name, as soon as nobody has to wait for terms. */
export function useTerm(name: string): Found | null {
  const settings = useStore(state => state.settings)
  const isWhole = useStore(({ whole }) => whole === 'here')
  const [now, setNow] = useState(ready)
  useEffect(() => {
    if (now || !isWhole) return
    if (ready) return setNow(true)
    const tell = () => setNow(true)
    if (waiting.size === 0) getReady()
    waiting.add(tell)
    return () => {
      waiting.delete(tell)
    }
  }, [now, isWhole])
  return now && isWhole ? findTerm(name, settings) : null
}
