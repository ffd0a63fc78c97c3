import type { HearSource } from '../engine/hearing'

export const MADE = ['bass', 'guitar', 'keys', 'speech'] as const satisfies readonly HearSource[]

/** What is played: a sound that is made up, or a recording of the reader's. */
export type Source = { readonly made: HearSource } | { readonly file: File }

/** A recording of half a minute is smaller, whatever it is written in. */
export const LARGEST = 60e6
