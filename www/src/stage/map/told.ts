// What of the ground map is told in words: numbers with their units, places, wires, loops.

import type { GroundMap, MapLoop, MapPlace, MapWire, Unit } from '../../../generated/contract'
import { print, printing } from '../../base/unit'
import { say } from '../../base/words'
import { getState } from '../../screen/store'
import { distance } from '../show/amount'
import { getProject } from '../show/project'
import { nth } from './nth'

function printed(value: number, unit: Unit, symbol: string): string {
  const { settings } = getState()
  return print(value, printing(unit, symbol, settings), settings)
}

export function volts(value: number): string {
  return printed(value, 'volt', 'V')
}

/** Below this a current does nothing that one could hear or feel, A. */
const NEXT_TO_NOTHING = 1e-6

export function amperes(value: number): string {
  return value < NEXT_TO_NOTHING ? say('stage-map-no-current') : printed(value, 'ampere', 'A')
}

export function ohms(value: number): string {
  return printed(value, 'ohm', 'Ω')
}

export function hertz(value: number): string {
  return printed(value, 'hertz', 'Hz')
}

/** From the signal to the hum, told apart from its limit; where nothing hums that is said. */
export function decibels(value: number | null, limit: number | null = null): string {
  return value === null ? say('stage-map-silent') : distance(value, getState().settings, limit)
}

/** The difference that was entered for a circuit; empty for other places, and where none was. */
export function enteredFor({ kind, id }: MapPlace): string {
  const circuit = kind === 'circuit' ? getProject().show.power.find(circuit => circuit.id === id) : undefined
  return circuit?.difference.trim() ?? ''
}

/** The earth of a circuit, with what was entered for it and what it comes to. */
export function earthTold(place: MapPlace): string {
  const said = { name: placeName(place), volts: volts(place.volts) }
  const entered = enteredFor(place)
  return entered === '' ? say('stage-map-bar', said) : say('stage-map-bar-entered', { ...said, entered })
}

/** The earth of a circuit in few words: with what was entered for it, else with what it comes to. */
export function earthShort(place: MapPlace): string {
  return say('stage-map-bar', { name: place.name, volts: enteredFor(place) || volts(place.volts) })
}

/** What a place is called; the earth of a circuit as one, a box with the channel of its line. */
export function placeName({ kind, name, id }: MapPlace): string {
  const channel = kind === 'joint' ? getProject().show.lines.find(line => line.id === id)?.channel : undefined
  const called = [channel ?? '', name === '' ? id : name].filter(text => text !== '').join(' ')
  return kind === 'circuit' ? say('stage-map-earth-of', { name: called }) : called
}

/** How a place is powered, and what it leaks. */
export function powerOf({ kind, power, leaks, floating }: MapPlace): string {
  const told = kind === 'joint' ? [say('stage-map-joint')] : power === null ? [] : [say(`stage-map-power-${power}`)]
  if (leaks !== null) told.push(say('stage-map-leaks', { current: amperes(leaks) }))
  if (floating && power !== 'battery') told.push(say('stage-map-floating'))
  return told.join(', ')
}

/** What a wire is called. */
export function wireName({ kind, name, link, id }: MapWire): string {
  const called = name === '' ? id : name
  if (kind === 'link') return say(`stage-map-link-${link ?? 'audio'}`, { name: called })
  return say(`stage-map-wire-${kind}`, { name: called })
}

/** What joins which, with how its shield ends and what flows. */
export function wireTold(map: GroundMap, wire: MapWire): string {
  const [from, to] = wire.ends.map(end => placeName(nth(map.places, end))) as [string, string]
  const told = [say('stage-map-joins', { wire: wireName(wire), from, to })]
  if (wire.kind !== 'earth' && wire.kind !== 'metalwork') told.push(say(`stage-map-ends-${wire.shield}`))
  told.push(wire.ohms === null ? say('stage-map-no-current') : amperes(wire.amperes))
  return told.join(', ')
}

/** A stop on the way around a loop: a place, or the earth of the venue, and the wire that goes on. */
export interface Stop {
  /** Nothing for the earth of the venue. */
  readonly place: number | null
  readonly wire: number | null
}

/**
 * The places of a loop and the wires between, in order around. Earths of circuits meet
 * in that of the venue, which no wire of the map is.
 */
export function around({ places, wires }: GroundMap, loop: MapLoop): Stop[] {
  const first = wires[loop.wires[0] ?? -1]
  if (first === undefined) return []
  const isCircuit = (place: number) => nth(places, place).kind === 'circuit'
  const walk = (start: number): Stop[] | null => {
    const stops: Stop[] = []
    let at = start
    for (const index of loop.wires) {
      const { ends } = nth(wires, index)
      let from = ends.find(end => end === at)
      if (from === undefined) {
        from = ends.find(isCircuit)
        if (from === undefined || !isCircuit(at)) return null
        stops.push({ place: at, wire: null }, { place: null, wire: null })
      }
      stops.push({ place: from, wire: index })
      at = ends[0] === from ? ends[1] : ends[0]
    }
    if (at !== start) {
      if (!isCircuit(at) || !isCircuit(start)) return null
      stops.push({ place: at, wire: null }, { place: null, wire: null })
    }
    return stops
  }
  const stops = walk(first.ends[0]) ?? walk(first.ends[1]) ?? []
  // Told from where a signal comes from.
  const begin = stops.findIndex(({ wire }) => wire !== null && nth(wires, wire).kind !== 'earth')
  return begin > 0 ? [...stops.slice(begin), ...stops.slice(0, begin)] : stops
}

/** A loop in words, ending where it began. */
export function loopTold(map: GroundMap, loop: MapLoop): string {
  const stops = around(map, loop)
  if (stops.length === 0) return loop.wires.map(wire => wireName(nth(map.wires, wire))).join(' → ')
  const words = stops.flatMap(({ place, wire }) => {
    const at = place === null ? say('stage-map-venue') : placeName(nth(map.places, place))
    const on = wire === null ? undefined : map.wires[wire]
    return on === undefined || on.kind === 'earth' ? [at] : [at, wireName(on)]
  })
  return [...words, nth(words, 0)].join(' → ')
}
