// Sound as it comes in, as raw as the browser gives it. It is never played: what the
// context puts out is the output of a node that nobody writes to, which is silence.

import { Gaps } from './gaps'
import { Ring } from './ring'

/** What a browser does to voices by itself, which bends harmonics. */
export const PROCESSING = ['echoCancellation', 'noiseSuppression', 'autoGainControl'] as const

export type Processing = (typeof PROCESSING)[number]

/** So much is held, s. */
export const HELD = 10

/** So many samples come at once. Many: a page that is busy for a moment loses none. */
const BLOCK = 16_384
/** The newest samples for a picture: as many as a node gives. */
const PICTURE = 32_768
/** Sound that does not run by then never will, ms. */
const PATIENCE = 5000
/** The other of two channels is listened to once it has so many times the power. */
const LOUDER = 4
/** What of the power so far counts after another block. */
const FADE = 0.8
/** Of so many samples one is enough to tell how loud a channel is; of no tone always the same place. */
const EVERY = 13

export interface Capture {
  /** Samples a second. */
  readonly rate: number
  readonly device: string
  readonly name: string
  /** Processing that stays on though it was asked off. */
  readonly refused: readonly Processing[]
  /** Processing of which the browser does not tell. */
  readonly untold: readonly Processing[]
  /** The newest samples for a picture. */
  picture(): Float32Array<ArrayBuffer>
  /** The newest so many seconds without a gap, or as much as there is. */
  last(seconds: number): Float32Array<ArrayBuffer>
  /** The same in a while; nothing where it has gone by then. */
  lastSlowly(seconds: number): Promise<Float32Array<ArrayBuffer> | null>
  stop(): void
}

/** Asks for a microphone or an input; the browser asks the reader. */
export function askForSound(device: string): Promise<MediaStream> {
  return navigator.mediaDevices.getUserMedia({
    audio: {
      ...(device === '' ? {} : { deviceId: { exact: device } }),
      echoCancellation: false,
      noiseSuppression: false,
      autoGainControl: false,
      // Of an interface, whichever of two inputs has something on it.
      channelCount: { ideal: 2 },
    },
  })
}

/** Takes in what a stream brings until it is stopped, or ends by itself. */
export async function capture(stream: MediaStream, onEnd: () => void): Promise<Capture> {
  const track = stream.getAudioTracks()[0]
  const told: MediaTrackSettings = track?.getSettings() ?? {}
  const context = contextOf(told.sampleRate)
  const { channels, picture, release } = takenIn(context, stream)
  const stop = () => {
    track?.removeEventListener('ended', ended)
    context.removeEventListener('statechange', changed)
    for (const track of stream.getTracks()) track.stop()
    release()
    if (context.state !== 'closed') void context.close()
  }
  const ended = () => {
    stop()
    onEnd()
  }
  // A call that comes in takes the microphone away.
  const changed = () => context.state !== 'running' && ended()
  track?.addEventListener('ended', ended)
  try {
    await Promise.race([context.resume(), never()])
  } catch (error) {
    stop()
    throw error
  }
  context.addEventListener('statechange', changed)
  return {
    rate: context.sampleRate,
    device: told.deviceId ?? '',
    name: track?.label ?? '',
    refused: PROCESSING.filter(id => told[id] !== undefined && told[id] !== false),
    untold: PROCESSING.filter(id => told[id] === undefined),
    picture,
    last: seconds => channels.ring.last(seconds * context.sampleRate),
    lastSlowly: seconds => channels.ring.lastSlowly(seconds * context.sampleRate),
    stop,
  }
}

/** A browser without any output waits for one for ever. */
function never(): Promise<never> {
  return new Promise((_, failed) =>
    setTimeout(() => failed(new DOMException('no sound runs here', 'TimeoutError')), PATIENCE),
  )
}

/** At the rate of the input where that can be had, so that nothing is resampled. */
function contextOf(rate: number | undefined): AudioContext {
  try {
    if (rate !== undefined) return new AudioContext({ sampleRate: rate })
  } catch {
    // The rate of the output then.
  }
  return new AudioContext()
}

function takenIn(context: AudioContext, stream: MediaStream) {
  const source = context.createMediaStreamSource(stream)
  const splitter = context.createChannelSplitter(2)
  const merger = context.createChannelMerger(2)
  const analysers = [0, 1].map(channel => {
    const analyser = new AnalyserNode(context, { fftSize: PICTURE })
    splitter.connect(analyser, channel)
    analyser.connect(merger, 0, channel)
    return analyser
  })
  // A worklet would need a script of its own, which the page in one file may not have.
  const processor = context.createScriptProcessor(BLOCK, 2, 1)
  const channels = new Channels(context.sampleRate)
  processor.onaudioprocess = ({ inputBuffer, playbackTime }) => channels.push(inputBuffer, playbackTime)
  source.connect(splitter)
  merger.connect(processor)
  // Without a way out, browsers ask it for nothing.
  processor.connect(context.destination)
  const picture = () => {
    const samples = new Float32Array(PICTURE)
    analysers[channels.loudest]?.getFloatTimeDomainData(samples)
    return samples
  }
  const release = () => {
    processor.onaudioprocess = null
    for (const node of [source, splitter, ...analysers, merger, processor]) node.disconnect()
  }
  return { channels, picture, release }
}

/** Two channels, of which the louder one is listened to. */
class Channels {
  readonly #rings: readonly [Ring, Ring]
  readonly #gaps: Gaps
  readonly #powers: [number, number] = [0, 0]
  loudest: 0 | 1 = 0

  constructor(rate: number) {
    const room = Math.ceil(HELD * rate)
    this.#rings = [new Ring(room), new Ring(room)]
    this.#gaps = new Gaps(BLOCK, rate)
  }

  push(block: AudioBuffer, time: number): void {
    const isGap = this.#gaps.before(time)
    for (const channel of [0, 1] as const) {
      const samples = block.getChannelData(channel)
      if (isGap) this.#rings[channel].clear()
      else this.#rings[channel].push(samples)
      this.#powers[channel] = FADE * this.#powers[channel] + powerOf(samples)
    }
    const other = this.loudest === 0 ? 1 : 0
    if (this.#powers[other] > LOUDER * this.#powers[this.loudest]) this.loudest = other
  }

  /** That of the louder one. */
  get ring(): Ring {
    return this.#rings[this.loudest]
  }
}

function powerOf(samples: Float32Array): number {
  let power = 0
  for (let at = 0; at < samples.length; at += EVERY) power += (samples[at] ?? 0) ** 2
  return power
}
