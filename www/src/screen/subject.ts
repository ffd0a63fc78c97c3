import type { Description, Report } from '../../generated/contract'
import type { Embed } from './embed'

/** What the answer is for, in short; nothing where it would tell what the author of a lesson hides. */
export function subjectOf({ first }: Description, { subject }: Report, embed: Embed | null): string | null {
  return embed !== null && first.some(id => embed.hidden.includes(id)) ? null : subject
}
