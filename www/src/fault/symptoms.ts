// What is heard, and on how much of the desk, by the identifiers of the core.

import type { Search } from './address'

export const SYMPTOMS: readonly string[] = [
  'hum',
  'buzz',
  'whine',
  'hiss',
  'crackle',
  'radio',
  'dead',
  'quiet',
  'thin',
  'dull',
  'distorted',
  'intermittent',
  'thump',
]

/** Those that can be listened to by themselves. */
export const NOISES: readonly string[] = ['hum', 'buzz', 'whine', 'hiss', 'radio']

export const SCOPES: readonly string[] = ['one', 'several', 'all']

/** A search as far as it is known what is heard, and where. */
export function knownOf(search: Search): Search {
  const symptom = SYMPTOMS.includes(search.symptom) ? search.symptom : ''
  return { ...search, symptom, scope: symptom !== '' && SCOPES.includes(search.scope) ? search.scope : '' }
}
