// Does what the ground map proposes: in the lines, links and gear of the show.

import type { Gear, GroundMap, Isolate, LinkEnds, LinkKind, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { freeId } from '../show/project'
import { nth } from './nth'

/** By what a link is isolated. */
const LINKS: Readonly<Record<LinkKind, LinkEnds | null>> = {
  audio: 'transformer',
  network: 'transformer',
  usb: 'optical',
  video: 'optical',
  metalwork: null,
}

/** What an isolator that still has to be got is taken to be: usual values, one to one. */
const USUAL = { ratio: '1:1', r1: '60', r2: '60', magnetising: '20 H', largest: '+18 dBu' }

/** Isolates what can be isolated in the show; answers what has to be done by hand, for something else is there. */
export function isolateAll(show: Show, map: GroundMap, all: readonly Isolate[]): Isolate[] {
  return all.filter(one => {
    const { kind, id } = nth(map.wires, one.wire)
    return kind === 'link' ? !isolateLink(show, id) : !isolateLine(show, id, one)
  })
}

function isolateLink(show: Show, id: string): boolean {
  const link = show.links.find(link => link.id === id)
  const ends = link === undefined ? null : LINKS[link.kind]
  if (link === undefined || ends === null) return false
  link.ends = ends
  return true
}

function isolateLine(show: Show, id: string, { lift, split }: Isolate): boolean {
  const line = show.lines.find(line => line.id === id)
  if (line === undefined) return false
  if (split) {
    line.split = 'transformer'
    return true
  }
  if (lift) {
    line.values['ground'] = 'lifted'
    return true
  }
  // A box that is there stays: in its place the signal would be another.
  if (line.di !== '') return false
  line.di = isolator(show).id
  return true
}

/** An isolator of the drawer, one that is not in use if there is one. */
function isolator(show: Show): Gear {
  const all = show.gear.filter(({ kind }) => kind === 'isolator')
  const used = (id: string) => show.lines.filter(line => line.di === id).length
  const spare = all.find(({ id, count }) => count === null || used(id) < count) ?? all[0]
  if (spare !== undefined) return spare
  const name = say('stage-map-isolator')
  const made: Gear = {
    id: freeId(show.gear, name),
    name,
    kind: 'isolator',
    values: USUAL,
    count: 0,
    note: '',
    measured: '',
  }
  show.gear.push(made)
  return made
}
