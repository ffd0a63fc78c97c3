// Where a frequency and a level stand in the picture of a spectrum.

const [LOWEST, HIGHEST] = [20, 20_000]
/** Levels that are drawn, dBFS: nothing is louder, and few inputs are quieter. */
const [FAINTEST, LOUDEST] = [-120, 0]
const TICKS = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000]
const LEVELS = [0, -20, -40, -60, -80, -100, -120]

export interface Axes {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  /** The height of a line of text. */
  readonly line: number
  readonly ticks: readonly number[]
  readonly levels: readonly number[]
  readonly x: (hz: number) => number
  readonly y: (level: number) => number
}

export function axesOf(width: number, line: number): Axes {
  const height = Math.round(Math.min(Math.max(0.55 * width, 15 * line), 24 * line))
  const [left, right, top, bottom] = [3.2 * line, width - 1.2 * line, 1.4 * line, height - 1.5 * line]
  const decades = Math.log10(HIGHEST / LOWEST)
  const isNarrow = width < 36 * line
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    line,
    ticks: isNarrow ? TICKS.filter(hz => !`${hz}`.startsWith('5')) : TICKS,
    levels: LEVELS,
    x: hz => left + ((right - left) * Math.log10(hz / LOWEST)) / decades,
    y: level => {
      const shown = Math.min(Math.max(level, FAINTEST), LOUDEST)
      return bottom - ((bottom - top) * (shown - FAINTEST)) / (LOUDEST - FAINTEST)
    },
  }
}

/** Whether a place is within the picture. */
export function isDrawn(hz: number, level: number): boolean {
  return hz >= LOWEST && hz <= HIGHEST && level > FAINTEST && level <= LOUDEST
}

/** The harmonics of which the numbers have room side by side. */
export function numbered(harmonics: readonly { readonly harmonic: number; readonly hz: number }[], { x, line }: Axes) {
  let taken = -Infinity
  return harmonics.filter(({ harmonic, hz }) => {
    const room = (0.3 + 0.35 * `${harmonic}`.length) * line
    if (x(hz) - room < taken) return false
    taken = x(hz) + room
    return true
  })
}
