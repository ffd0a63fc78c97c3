import type { InputLine } from '../../../generated/contract'

/** So many lines a show has at most, as the engine reads them. */
export const MOST_LINES = 2000

/** Lines behind others, each with an identifier that no other has; pairs stay together. */
export function appended(lines: readonly InputLine[], more: readonly InputLine[]): InputLine[] {
  const taken = new Set(lines.map(({ id }) => id))
  const renamed = new Map<string, string>()
  for (const { id } of more) {
    let free = id
    for (let count = 2; taken.has(free); count++) free = `${id}-${count}`
    taken.add(free)
    renamed.set(id, free)
  }
  const added = more.map(line => ({
    ...line,
    id: renamed.get(line.id) ?? line.id,
    pair: renamed.get(line.pair) ?? line.pair,
  }))
  return [...lines, ...added].slice(0, MOST_LINES)
}
