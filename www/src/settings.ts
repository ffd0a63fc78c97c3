// What the reader has chosen for the whole page. It is kept where the browser
// lets us keep it, and lasts as long as the page is open where it does not.

import type { Settings } from '../generated/contract'
import { beginning } from './saved-page'

/** The settings of a link that names none. */
export const DEFAULTS: Settings = { decimal: 'point', length: 'metre', mains: '50', language: 'en' }

export type Theme = 'system' | 'light' | 'dark'

export interface Preferences {
  readonly settings: Settings
  readonly theme: Theme
}

const KEY = 'stageohm.preferences'

export function loadPreferences(): Preferences {
  const kept = loadKept()
  const { settings, theme } = beginning()
  const begun: Record<string, unknown> = typeof settings === 'object' ? { ...settings, theme } : {}
  const one = <T extends string>(key: string, known: readonly T[]): T => {
    const chosen = (from: Record<string, unknown>) => known.find(value => value === from[key])
    return chosen(kept) ?? chosen(begun) ?? (known[0] as T)
  }
  return {
    settings: {
      ...DEFAULTS,
      decimal: one('decimal', ['point', 'comma']),
      length: one('length', ['metre', 'foot']),
      mains: one('mains', ['50', '60']),
    },
    theme: one('theme', ['system', 'light', 'dark']),
  }
}

export function keepPreferences({ settings, theme }: Preferences): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...settings, theme }))
  } catch {
    // Storage is refused: the choice lasts as long as the page.
  }
}

function loadKept(): Record<string, unknown> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}')
    return typeof kept === 'object' && kept !== null ? { ...kept } : {}
  } catch {
    return {}
  }
}

export function showTheme(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset['theme']
  else document.documentElement.dataset['theme'] = theme
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
