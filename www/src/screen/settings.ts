// What the reader has chosen for the whole page. It is kept where the browser
// lets us keep it, and lasts as long as the page is open where it does not.

import type { Settings } from '../../generated/contract'
import { language } from '../base/language'
import { toldOfLanguages } from '../base/words'
import { isRecord, keepChoice, load, peek, whenKeptElsewhere } from '../base/kept'
import { beginning, isSaved } from './saved-page'
import { THEMES, type Theme } from './theme'

/** The settings of a link that names none; its words are those of whoever opens it. */
export const DEFAULTS: Settings = {
  ...{ decimal: 'point', length: 'metre', mains: '50' },
  language: language as Settings['language'],
}

export interface Preferences {
  readonly settings: Settings
  readonly theme: Theme
}

const KEY = 'preferences'

/** The theme alone, before the first frame. */
export function peekTheme(): Theme {
  return preferencesOf(peek(KEY, isRecord)).theme
}

export function loadPreferences(): Preferences {
  return preferencesOf(load(KEY, isRecord))
}

function preferencesOf(kept: Record<string, unknown> | null): Preferences {
  const { settings, theme } = beginning()
  const begun = isSaved() && isRecord(settings) ? { ...settings, theme } : {}
  const one = <T extends string>(key: string, known: readonly T[]): T => {
    const chosen = (from: Record<string, unknown>) => known.find(value => value === from[key])
    // A saved page is to look as it did when it was saved.
    return chosen(begun) ?? chosen(kept ?? {}) ?? (known[0] as T)
  }
  // Who has chosen no decimal sign begins with that of the language.
  const [, , decimal = 'point'] = toldOfLanguages().find(([code]) => code === language) ?? []
  return {
    settings: {
      ...DEFAULTS,
      decimal: one('decimal', decimal === 'comma' ? ['comma', 'point'] : ['point', 'comma']),
      length: one('length', ['metre', 'foot']),
      mains: one('mains', ['50', '60']),
    },
    theme: one('theme', THEMES),
  }
}

/** Keeps what changed, beside what another tab may have changed since. */
export function keepPreferences(change: Partial<Settings> | { readonly theme: Theme }): void {
  // A saved page has its own; those of the others are not its to change.
  if (isSaved()) return
  keepChoice(KEY, { ...load(KEY, isRecord), ...change })
}

/** Calls `listener` when another tab changes them. */
export function whenPreferencesChange(listener: (preferences: Preferences) => void): void {
  whenKeptElsewhere(KEY, () => listener(loadPreferences()))
}

const WORDS: Record<string, Partial<Settings>> = {
  comma: { decimal: 'comma' },
  foot: { length: 'foot' },
  '60': { mains: '60' },
}

/** The settings as words of a link; empty for those of DEFAULTS. */
export function writeSettings(settings: Settings): string {
  return Object.entries(WORDS)
    .filter(([, part]) => Object.entries(part).every(([key, value]) => settings[key as keyof Settings] === value))
    .map(([word]) => word)
    .join(',')
}

export function readSettings(text: string, spare: string[]): Settings {
  let settings = DEFAULTS
  for (const word of text.split(',').filter(word => word !== '')) {
    const part = Object.hasOwn(WORDS, word) ? WORDS[word] : undefined
    if (part === undefined) spare.push(`in=${word}`)
    else settings = { ...settings, ...part }
  }
  return settings
}
