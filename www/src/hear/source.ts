import type { HearSource } from '../engine/hearing'
import type { Why } from './why'

export const MADE = ['bass', 'guitar', 'keys', 'speech'] as const satisfies readonly HearSource[]

/** What is played: a sound that is made up, or a recording of the reader's. */
export type Source = { readonly made: HearSource } | { readonly file: File }

/** Half a minute of stereo is smaller, even at 192 kHz in 32 bits. */
const LARGEST = 60e6

/** What a file calls itself that is no recording; many that are one call themselves nothing. */
const OTHER = /^(image|text|font)\/|^application\/(pdf|zip|json)$/

/** Why a file cannot be one, as far as it shows before it is read. */
export function unfit({ size, type }: File): Why | null {
  if (size > LARGEST) return 'hear-recording-long'
  return size === 0 || OTHER.test(type) ? 'hear-recording' : null
}
