// What was heard, in words.

import type { Family, Heard, Settings, Sound } from '../../../generated/contract'
import { print, printing, withSign } from '../../base/unit'
import { say } from '../../base/words'

/** A family that fits as well as this beside the best is named too. */
const NEARLY = 0.5
/** The frequency of the mains is told no finer, Hz. */
const FINEST = 0.01

/** Below this a tone may be a note, Hz. */
const LOW = 1000
/** Mains that are heard for so much of the time are heard all the time. */
const NEARLY_ALL = 0.9

/** A number with so many digits behind the point. */
export function fixed(value: number, digits: number, settings: Settings): string {
  return withSign(value.toFixed(digits).replace('-', '\u2212'), settings)
}

export function hertz(value: number, settings: Settings): string {
  return print(value, { ...printing('hertz', 'Hz', settings), digits: '.3~s' }, settings)
}

/** The frequency of the mains, as `50.02 Hz ± 0.01 Hz`; nothing where none is heard. */
export function mainsText({ mains }: Heard, settings: Settings): string | null {
  if (mains === null) return null
  const within = Math.max(FINEST, Math.ceil(mains.within / FINEST) * FINEST)
  return say('fault-listen-mains', { hz: fixed(mains.hz, 2, settings), within: fixed(within, 2, settings) })
}

/** The likeliest family; nothing where nothing is heard. */
export function firstFamily({ families }: Heard): Family | null {
  const [first, ...rest] = families
  return first === undefined
    ? null
    : rest.reduce((most, next) => (next.likelihood > most.likelihood ? next : most), first).family
}

/** A tone that is no harmonic; a low one may be a note. */
function toneText({ whine }: Heard, settings: Settings): string | null {
  if (whine === null) return null
  const word = whine.hz < LOW ? 'fault-listen-says-tone' : 'fault-listen-says-whine'
  return say(word, { hz: hertz(whine.hz, settings) })
}

/** For how long the mains were heard; nothing where that is all the time. */
function forText({ mains, seconds }: Heard, settings: Settings): string | null {
  if (mains === null || mains.heard_for > NEARLY_ALL * seconds) return null
  const values = { seconds: fixed(mains.heard_for, 0, settings), all: fixed(seconds, 0, settings) }
  return say('fault-listen-heard-for', values)
}

/** What a reader should know of it, what leads first. */
export function sentences(heard: Heard, settings: Settings): string[] {
  const first = firstFamily(heard)
  const whine = toneText(heard, settings)
  const corner = heard.corner === null ? null : say('fault-listen-corner', { hz: hertz(heard.corner, settings) })
  const lead = first === 'whine' && whine !== null ? whine : first === null ? null : say(`fault-listen-says-${first}`)
  return [
    heard.flaw === null ? null : say(`fault-listen-flaw-${heard.flaw}`),
    ...heard.remarks.map(remark => say(`fault-listen-remark-${remark}`)),
    forText(heard, settings),
    lead,
    first === 'dimmer' ? corner : null,
    ...heard.families
      .filter(({ family, likelihood }) => family !== first && likelihood >= NEARLY)
      .map(({ family }) => say('fault-listen-or', { family: say(`fault-listen-family-${family}`) })),
    first === 'whine' ? null : whine,
    first === 'telephone' || heard.bursts === null ? null : say('fault-listen-says-telephone'),
  ].filter(text => text !== null)
}

/** In a few words, to be read out and to stand beside a button. */
export function briefly(heard: Heard, settings: Settings): string {
  const first = firstFamily(heard)
  if (first === null) return say(heard.flaw === null ? 'fault-listen-nothing' : `fault-listen-flaw-${heard.flaw}`)
  const mains = mainsText(heard, settings)
  return [say(`fault-listen-family-${first}`), mains].filter(text => text !== null).join('; ')
}

/** What goes to the odds. */
export function soundOf({ lines, families }: Heard): Sound {
  return {
    lines: lines.map(({ harmonic, first, over }) => [harmonic, first, over]),
    families: Object.fromEntries(families.map(({ family, likelihood }) => [family, likelihood])),
  }
}
