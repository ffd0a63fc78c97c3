// Which rig the screen shows, in words, as a picture of it says that.

import { say } from '../base/words'
import { isHidden } from './embed'
import { description } from './shown'
import { embedOf, getState } from './store'
import { subjectOf } from './subject'

/** At most this many values are named. */
const NAMED = 8

/**
 * The calculator with its subject, or the values of its question where it has none, and
 * those that are not as usual; nothing that a lesson hides.
 */
export function rigInWords(): string[] {
  const state = getState()
  const { good, blank } = state
  const known = description()
  if (good === null || known === undefined) return []
  const embed = embedOf(state)
  const subject = subjectOf(known, good.report, embed)
  const values = known.fields.flatMap(({ id, name, choice }) => {
    const { text = '', active } = good.fields[id] ?? {}
    const tells = text !== blank[id]?.text || (subject === null && known.first.includes(id))
    if (active === false || text === '' || !tells || isHidden(embed, id)) return []
    return [`${name} ${choice?.options.find(option => option.id === text)?.name ?? text}`]
  })
  const more = values.length > NAMED ? [say('more', { count: `${values.length - NAMED}` })] : []
  const told = [...values.slice(0, NAMED), ...more].join(', ')
  return [[known.title, subject].filter(Boolean).join(': '), told].filter(text => text !== '')
}
