import type { Description } from '../../generated/contract'
import { readPlace } from '../screen/link'
import { say } from '../base/words'

/** At most this many values of a screen are named. */
const NAMED = 3

interface Properties {
  /** The address of a screen. */
  readonly hash: string
  readonly description: Description | undefined
}

/** What was put in on a screen, in short, to know it again by. */
export function Put({ hash, description }: Properties) {
  const place = readPlace(hash)
  if (place.kind !== 'calculator' || description === undefined) return null
  const { current } = place.filling
  const pieces = description.fields.flatMap(({ id, name, choice }) => {
    const text = current[id]
    if (text === undefined) return []
    return [`${name} ${choice?.options.find(option => option.id === text)?.name ?? (text || say('absent'))}`]
  })
  if (pieces.length === 0) return null
  const more = pieces.length > NAMED ? [say('more', { count: `${pieces.length - NAMED}` })] : []
  return <span class="put">{[...pieces.slice(0, NAMED), ...more].join(', ')}</span>
}
