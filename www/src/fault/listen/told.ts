// What was heard, in words.

import type { Family, Heard, Settings, Sound } from '../../../generated/contract'
import { print, printing, withSign } from '../../base/unit'
import { say } from '../../base/words'

/** A family that fits as well as this beside the best is named too. */
const NEARLY = 0.5
/** The frequency of the mains is told no finer, Hz. */
const FINEST = 0.01

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

/** What a reader should know of it, what leads first. */
export function sentences(heard: Heard, settings: Settings): string[] {
  const first = firstFamily(heard)
  const whine = heard.whine === null ? null : say('fault-listen-says-whine', { hz: hertz(heard.whine.hz, settings) })
  const corner = heard.corner === null ? null : say('fault-listen-corner', { hz: hertz(heard.corner, settings) })
  const lead = first === 'whine' && whine !== null ? whine : first === null ? null : say(`fault-listen-says-${first}`)
  return [
    heard.flaw === null ? null : say(`fault-listen-flaw-${heard.flaw}`),
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
