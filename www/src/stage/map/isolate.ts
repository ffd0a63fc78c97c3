// Does what the ground map proposes: in the lines, links and gear of the show.

import type { GroundMap, Isolate, Show } from '../../../generated/contract'
import { nth } from './nth'

/** Isolates in the show as the core has solved it; answers what could not be done, for its line or link is gone. */
export function isolateAll(show: Show, map: GroundMap, all: readonly Isolate[]): Isolate[] {
  return all.filter(one => {
    const { kind, id } = nth(map.wires, one.wire)
    return kind === 'link' ? !isolateLink(show, id, one) : !isolateLine(show, id, one)
  })
}

function isolateLink(show: Show, id: string, { ends }: Isolate): boolean {
  const link = show.links.find(link => link.id === id)
  if (link === undefined || ends === null) return false
  link.ends = ends
  return true
}

function isolateLine(show: Show, id: string, { split, gear, made, values }: Isolate): boolean {
  const line = show.lines.find(line => line.id === id)
  if (line === undefined) return false
  if (split) {
    line.split = 'transformer'
    return true
  }
  if (values === null) return false
  if (made !== null && !show.gear.some(({ id }) => id === made.id)) show.gear.push({ ...made })
  line.di = gear
  line.values = { ...values }
  return true
}
