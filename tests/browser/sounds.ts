// Sounds for the tests, put together here and nowhere else, in files of 16 bits.

export interface Tone {
  readonly hz: number
  /** Peak, of full scale. */
  readonly level: number
}

const RATE = 48_000

/** Tones and a little noise, from so many samples a second, as a WAV file. */
export function wav(tones: readonly Tone[], seconds: number, noise = 1e-4, rate = RATE): Buffer {
  const count = Math.round(seconds * rate)
  const samples = Buffer.alloc(2 * count)
  let seed = 1
  for (let at = 0; at < count; at++) {
    // The least that makes a noise: a congruence after Lehmer.
    seed = (seed * 48_271) % 2_147_483_647
    const random = (2 * seed) / 2_147_483_647 - 1
    const sum = tones.reduce(
      (sum, { hz, level }, place) => sum + level * Math.sin((2 * Math.PI * hz * at) / rate + place),
      noise * random,
    )
    samples.writeInt16LE(Math.round(32_767 * sum), 2 * at)
  }
  return Buffer.concat([head(samples.length, rate), samples])
}

/** The description of such a file. */
function head(size: number, rate: number): Buffer {
  const head = Buffer.alloc(44)
  head.write('RIFF')
  head.writeUInt32LE(36 + size, 4)
  head.write('WAVEfmt ', 8)
  head.writeUInt32LE(16, 16)
  head.writeUInt16LE(1, 20)
  head.writeUInt16LE(1, 22)
  head.writeUInt32LE(rate, 24)
  head.writeUInt32LE(2 * rate, 28)
  head.writeUInt16LE(2, 32)
  head.writeUInt16LE(16, 34)
  head.write('data', 36)
  head.writeUInt32LE(size, 40)
  return head
}

/** Silence that takes no time to put together, as a WAV file. */
export function silence(seconds: number, rate = RATE): Buffer {
  const size = 2 * Math.round(seconds * rate)
  return Buffer.concat([head(size, rate), Buffer.alloc(size)])
}

/** Mains hum with odd harmonics. */
export function oddHum(hz: number): Tone[] {
  return [
    { hz, level: 0.05 },
    { hz: 3 * hz, level: 0.02 },
    { hz: 5 * hz, level: 0.012 },
    { hz: 7 * hz, level: 0.007 },
    { hz: 9 * hz, level: 0.003 },
    { hz: 11 * hz, level: 0.002 },
  ]
}

/** The bursts of a telephone, 650 in three seconds: short, so that their harmonics hardly fall. */
export function bursts(): Tone[] {
  return Array.from({ length: 12 }, (_, place) => ({ hz: ((place + 1) * 650) / 3, level: 0.02 }))
}
