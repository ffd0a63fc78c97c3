import type { Show } from '../../../generated/contract'

/** The lines that use a piece of gear, each as one would call it. */
export function usersOf({ lines }: Show, id: string): string[] {
  return lines
    .filter(({ source, lead, di, run, pad, input }) => [source, lead, di, run, pad, input].includes(id))
    .map(({ channel, name, id }) => [channel, name].filter(text => text !== '').join(' ') || id)
}
