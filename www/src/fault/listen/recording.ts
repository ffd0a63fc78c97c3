// Recordings that the reader has: WAV files, which the core reads, and what else the
// browser unpacks.

import type { Heard, Through } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import { isWav, wavPart, wavPlace } from './wav-place'

/** The core listens to so much at once, s; of a longer recording the reader says which part. */
export const LONGEST = 120

/** More than this of a file is not held at once. */
const LARGEST = 500e6
/** What is packed gets up to twenty times as large. */
const LARGEST_PACKED = 30e6

/** What there was to hear, or why nothing was. */
export type HeardPart = { readonly heard: Heard } | { readonly wrong: string }

export interface Recording {
  readonly name: string
  /** How long it is, s. */
  readonly seconds: number
  /** Whether it ends before what it says of itself. */
  readonly cut: boolean
  /** Listens from so many seconds on. */
  hear(from: number, through: Through): Promise<HeardPart>
}

/** A recording, or the word for why it is none. */
export async function openRecording(file: File): Promise<Recording | { readonly wrong: string }> {
  if (file.size === 0) return { wrong: 'empty' }
  try {
    return (await isWav(file)) ? await wavRecording(file) : await unpackedRecording(file)
  } catch {
    return { wrong: 'not-read' }
  }
}

async function wavRecording(file: File): Promise<Recording | { readonly wrong: string }> {
  const place = await wavPlace(file)
  if (place === null && file.size > LARGEST) return { wrong: 'large' }
  const hear = async (from: number, through: Through): Promise<HeardPart> => {
    const part = place === null ? file : wavPart(file, place, from, LONGEST)
    const bytes = new Uint8Array(await part.arrayBuffer())
    const { heard, unreadable } = await askStage('listen_file', bytes, place === null ? from : 0, through)
    return heard === null ? { wrong: unreadable ?? 'not-read' } : { heard }
  }
  const seconds = place === null ? 0 : (place.to - place.from) / place.second
  return { name: file.name, seconds, cut: place?.cut ?? false, hear }
}

async function unpackedRecording(file: File): Promise<Recording | { readonly wrong: string }> {
  if (file.size > LARGEST_PACKED) return { wrong: file.size > LARGEST ? 'large' : 'packed' }
  const bytes = await file.arrayBuffer()
  const unpacked = await new OfflineAudioContext(1, 1, 48_000).decodeAudioData(bytes).catch(() => null)
  if (unpacked === null) return { wrong: 'not-sound' }
  const hear = async (from: number, through: Through) => {
    const samples = loudest(unpacked, from)
    return { heard: await askStage('listen_hear', samples, unpacked.sampleRate, through) }
  }
  return { name: file.name, seconds: unpacked.duration, cut: false, hear }
}

/** The part that is listened to, of the channel that is loudest there. */
function loudest(sound: AudioBuffer, from: number): Float32Array {
  const [first, last] = [from, from + LONGEST].map(seconds => Math.floor(seconds * sound.sampleRate))
  const parts = Array.from({ length: sound.numberOfChannels }, (_, channel) => {
    const samples = sound.getChannelData(channel).subarray(first, last)
    return { samples, power: samples.reduce((power, sample) => power + sample * sample, 0) }
  })
  const most = parts.reduce((most, part) => (part.power > most.power ? part : most))
  return most.samples.slice()
}
