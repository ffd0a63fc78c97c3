// Why there is no sound, by the keys of what is said of it.

const OF_RECORDING = ['hear-recording', 'hear-recording-short', 'hear-recording-long', 'hear-recording-silent'] as const

const WHYS = [
  ...OF_RECORDING,
  'hear-none',
  'hear-refused',
  'hear-held',
  'hear-elsewhere',
  'hear-nothing',
  'hear-lost',
  'hear-interrupted',
  'hear-hidden',
  'hear-missing',
  'hear-failed',
] as const

export type Why = (typeof WHYS)[number]

/** What was thrown, or told of an end, as a key. */
export function whyOf(thrown: unknown): Why {
  return WHYS.find(why => why === thrown) ?? 'hear-failed'
}

/** Whether another source mends it. */
export function isOfRecording(why: Why): boolean {
  return OF_RECORDING.some(one => one === why)
}
