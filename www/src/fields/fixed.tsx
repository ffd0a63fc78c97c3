import type { Description } from '../../generated/contract'
import type { Embed } from '../screen/embed'
import { say } from '../base/words'

interface Properties {
  readonly embed: Embed
  readonly description: Description
}

/** How many values the author of a lesson chose for good. */
export function Fixed({ embed, description }: Properties) {
  const of = (ids: readonly string[]) => description.fields.filter(({ id }) => ids.includes(id)).length
  const [locked, hidden] = [of(embed.locked), of(embed.hidden)]
  if (locked + hidden === 0) return null
  const pieces = [
    ...(locked > 0 ? [say('frame-fixed-shown', { count: `${locked}` })] : []),
    ...(hidden > 0 ? [say('frame-fixed-hidden', { count: `${hidden}` })] : []),
  ]
  return <p class="hint">{`${say('frame-fixed')} ${pieces.join(', ')}`}</p>
}
