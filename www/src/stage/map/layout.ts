// The ground map laid out: a lane for each circuit with its earth along the foot, and
// in each lane columns along the signal's way. Between boxes there are only gutters, and
// over each lane a channel; wires keep to these, so none runs through a box. The same
// map is laid out the same, always.

import type { GroundMap, MapWire } from '../../../generated/contract'
import { circuitsOf, columnsOf, lanesOf } from './rank'
import { drawn, routed, type Route } from './route'
import { afterAll, apart, type Span } from './tracks'
import { nth } from './nth'

export type Point = readonly [x: number, y: number]

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Lane extends Box {
  /** The place of its earth; nothing for what is on no circuit. */
  readonly circuit: number | null
}

export interface Layout {
  readonly width: number
  readonly height: number
  readonly lanes: readonly Lane[]
  /** The earth of the venue, beside the bars of the circuits; nothing where there are none. */
  readonly venue: Box | null
  /** By place; the earth of a circuit is the bar along the foot of its lane. */
  readonly boxes: readonly Box[]
  /** By wire: the corners of its way, from its first end to its second. */
  readonly ways: readonly (readonly Point[])[]
}

export const BOX = 168
const LEAST_HEIGHT = 64
/** Between boxes, and around the lanes. */
const GAP = 16
export const BAR = 40
/** From the top of a bar to where a loop goes along it, below its name. */
export const RAIL = 32
export const VENUE_WIDTH = 28
/** Before the lanes: the earth of the venue, and what lies between it and each circuit. */
const VENUE = 150
const VENUE_LEFT = 28
const LEAST_VENUE = 96
/** Room under it for the symbol of the earth. */
const VENUE_FOOT = 36
/** Between the ends of two leads at a box, and the most that all of them take. */
const PORT = 10
const MOST_PORTS = 640
/** Room at a box beside its leads. */
const PORT_MARGIN = 18
/** Free at both ends of a gutter: shields show how they end there, and earths go down. */
const SHOULDER = 30
const TRACK = 8
const MOST_GUTTER = 320
const MOST_CHANNEL = 160

/** Where a place stands before there are any measures. */
export interface Cell {
  readonly lane: number
  /** Counted over all columns and what they are broken into. */
  readonly column: number
  readonly order: number
}

export function layOut(map: GroundMap): Layout {
  const steps = layingOut(map)
  for (;;) {
    const { done, value } = steps.next()
    if (done === true) return value
  }
}

/** The same step by step, so that a page may do something else between. */
export function* layingOut(map: GroundMap): Generator<undefined, Layout> {
  const lane = lanesOf(map)
  const circuits = circuitsOf(map)
  const column = columnsOf(map)
  const heights = heightsOf(map, routed(map, column))
  yield
  const { cells, columns } = arranged(map, lane, column, heights)
  yield
  const across = cells.map(cell => cell.column)
  const lanes = circuits.length + (lane.includes(circuits.length) ? 1 : 0)
  return yield* measured(map, { cells, columns, lanes, heights, routes: routed(map, across, cells) })
}

interface Arranged {
  readonly cells: readonly Cell[]
  readonly columns: number
  readonly lanes: number
  readonly heights: readonly number[]
  readonly routes: readonly (Route | null)[]
}

/** A box is as tall as its fuller side needs. */
function heightsOf({ places }: GroundMap, routes: readonly (Route | null)[]): number[] {
  const ports = places.map((): [number, number] => [0, 0])
  for (const route of routes) {
    if (route !== null) for (const { place, side } of route.ports) nth(ports, place)[side]++
  }
  return ports.map(([left, right]) => {
    const most = Math.max(left, right)
    return Math.max(LEAST_HEIGHT, Math.min(most * PORT, MOST_PORTS) + PORT_MARGIN)
  })
}

/** Breaks the columns so that lanes become no taller than they have to be, and orders what stands in each. */
function arranged(map: GroundMap, lane: readonly number[], column: readonly number[], heights: readonly number[]) {
  const order = ordered(map, lane, column)
  const tallest = tallestOf(map, lane, heights)
  const groups = new Map<string, number[]>()
  for (const place of order) {
    if (nth(map.places, place).kind === 'circuit') continue
    const key = `${column[place]} ${lane[place]}`
    added(groups, key, place)
  }
  const cells: Cell[] = map.places.map((_, place) => ({ lane: nth(lane, place), column: 0, order: 0 }))
  let columns = 0
  for (let one = 0; one <= Math.max(0, ...column); one++) {
    let most = 0
    for (const [key, places] of groups) {
      if (!key.startsWith(`${one} `)) continue
      let [part, height] = [0, 0]
      for (const [at, place] of places.entries()) {
        if (height > 0 && height + nth(heights, place) > nth(tallest, nth(lane, place))) [part, height] = [part + 1, 0]
        height += nth(heights, place) + GAP
        cells[place] = { lane: nth(lane, place), column: columns + part, order: at }
      }
      most = Math.max(most, part + 1)
    }
    columns += most
  }
  return { cells, columns }
}

/** Puts one more under a key. */
function added<K, T>(groups: Map<K, T[]>, key: K, one: T): void {
  const there = groups.get(key)
  if (there === undefined) groups.set(key, [one])
  else there.push(one)
}

/** How tall each lane may become: about so that the map is a little wider than tall. */
function tallestOf(map: GroundMap, lane: readonly number[], heights: readonly number[]): number[] {
  const lanes = circuitsOf(map).length + 1
  const rows = Math.max(LEAST_ROWS, Math.ceil(Math.sqrt(PART_OF_ROWS * map.places.length) / lanes))
  const tallest = Array.from({ length: lanes }, () => rows * (LEAST_HEIGHT + GAP))
  // Breaking a column makes no lane lower than its tallest box.
  for (const [place, height] of heights.entries()) {
    const there = nth(lane, place)
    tallest[there] = Math.max(nth(tallest, there), height)
  }
  return tallest
}

/** Rows of a lane that are never broken, and what the rows of all lanes squared are to the number of places. */
const LEAST_ROWS = 5
const PART_OF_ROWS = 6

/** The places, those with neighbours near by near by, so that few wires cross. */
function ordered({ places, wires }: GroundMap, lane: readonly number[], column: readonly number[]): number[] {
  const near: number[][] = places.map(() => [])
  for (const { ends } of wires) ends.forEach((end, at) => nth(near, end).push(nth(ends, 1 - at)))
  let order = places.map((_, place) => place)
  for (let sweep = 0; sweep < 4; sweep++) {
    const at = new Map(order.map((place, position) => [place, position]))
    const wanted = places.map((_, place) => {
      const others = nth(near, place).filter(other => nth(places, other).kind !== 'circuit')
      const beside = others.filter(other => sweep % 2 === 0 || nth(column, other) < nth(column, place))
      const sum = beside.reduce((sum, other) => sum + (at.get(other) ?? 0), 0)
      return beside.length === 0 ? (at.get(place) ?? 0) : sum / beside.length
    })
    order = [...order].sort((a, b) => nth(lane, a) - nth(lane, b) || nth(wanted, a) - nth(wanted, b) || a - b)
  }
  return order
}

function* measured(map: GroundMap, arranged: Arranged): Generator<undefined, Layout> {
  const channels = channelTracks(arranged)
  const { tops, feet, lanes: spans, total } = rows(map, arranged, channels)
  const ports = portHeights(map, arranged, tops)
  yield
  const gutters = gutterTracks(map, arranged, { ports, channels, spans, feet })
  yield
  const circuits = circuitsOf(map)
  const left = circuits.length === 0 ? 0 : VENUE
  const { lefts, edges, width } = columnsAcross(left, arranged.columns, gutters.counts)
  const boxes = map.places.map(({ kind }, place): Box => {
    const { lane, column } = nth(arranged.cells, place)
    return kind === 'circuit'
      ? { x: left, y: nth(feet, lane), width: width - left, height: BAR }
      : { x: nth(lefts, column), y: nth(tops, place), width: BOX, height: nth(arranged.heights, place) }
  })
  const lanes = spans.map(({ from, to }, lane) => ({
    circuit: circuits[lane] ?? null,
    ...{ x: left, y: from, width: width - left, height: to - from },
  }))
  const ways = map.wires.map((wire, index): readonly Point[] => {
    const route = arranged.routes[index]
    if (route === null || route === undefined) return earthWay(map, wire, boxes)
    const x = (gutter: number) => nth(edges, gutter) + SHOULDER + gutters.at(index, gutter)
    return drawn(route, {
      boxes,
      x,
      port: (at: 0 | 1) => nth(ports, index)[at],
      channel: channelAt(route, channels, spans),
    })
  })
  const venue = venueOf(circuits.map(circuit => nth(boxes, circuit)))
  const height = venue === null ? total : Math.max(total, venue.y + venue.height + VENUE_FOOT)
  return { width, height, lanes, venue, boxes, ways }
}

/** From the first bar to the last. */
function venueOf(bars: readonly Box[]): Box | null {
  const [first, last] = [bars[0], bars.at(-1)]
  if (first === undefined || last === undefined) return null
  const y = Math.min(first.y, last.y + last.height - LEAST_VENUE)
  return { x: VENUE_LEFT, y, width: VENUE_WIDTH, height: last.y + last.height - y }
}

interface Channels {
  readonly track: readonly number[]
  readonly count: readonly number[]
}

/** The tracks of the channels over the lanes. */
function channelTracks({ routes, lanes }: Arranged): Channels {
  const track = routes.map(() => 0)
  const count = Array.from({ length: lanes }, (_, lane) => {
    const there = routes.flatMap((route, wire) => (route?.lane === lane && !route.direct ? [{ route, wire }] : []))
    const spans = there.map(({ route }): Span => {
      const [a, b] = route.gutters
      return { from: Math.min(a, b), to: Math.max(a, b) }
    })
    const tracks = apart(spans)
    there.forEach(({ wire }, at) => (track[wire] = nth(tracks, at)))
    return Math.max(0, ...tracks.map(one => one + 1))
  })
  return { track, count }
}

function channelPitch(count: number): number {
  return Math.min(TRACK, MOST_CHANNEL / Math.max(1, count))
}

function channelAt(route: Route, { track, count }: Channels, spans: readonly Span[]): (wire: number) => number {
  return wire => nth(spans, route.lane).from + GAP / 2 + nth(track, wire) * channelPitch(nth(count, route.lane))
}

/** Where lanes, their feet and what stands in them begin, from the top. */
function rows({ places }: GroundMap, { cells, lanes, heights }: Arranged, { count }: Channels) {
  const tops = places.map(() => 0)
  const feet: number[] = []
  const spans: Span[] = []
  let y = 0
  for (let lane = 0; lane < lanes; lane++) {
    const from = y
    const top = from + GAP + nth(count, lane) * channelPitch(nth(count, lane)) + GAP
    const next = new Map<number, number>()
    let foot = top + LEAST_HEIGHT / 2
    const there = cells.flatMap((cell, place) =>
      cell.lane === lane && nth(places, place).kind !== 'circuit' ? [{ ...cell, place }] : [],
    )
    for (const { column, place } of there.sort((a, b) => a.order - b.order)) {
      tops[place] = next.get(column) ?? top
      next.set(column, nth(tops, place) + nth(heights, place) + GAP)
      foot = Math.max(foot, next.get(column) ?? top)
    }
    feet.push(foot)
    y = foot + BAR
    spans.push({ from, to: y })
    y += GAP
  }
  return { tops, feet, lanes: spans, total: Math.max(0, y - GAP) }
}

/** How high each end of a wire is: those at one side of a box in the order of where they go. */
function portHeights({ places }: GroundMap, { routes, heights, cells }: Arranged, tops: readonly number[]) {
  const height = routes.map((): [number, number] => [0, 0])
  const sides = new Map<number, { wire: number; end: 0 | 1; to: number }[]>()
  routes.forEach((route, wire) => {
    route?.ports.forEach(({ place, side }, end) => {
      const other = nth(route.ports, 1 - end).place
      // What goes by the channel goes up first.
      const up = route.direct ? 0 : -1e7 * (nth(cells, place).lane >= route.lane ? 1 : -1)
      const one = { wire, end: end as 0 | 1, to: up + nth(tops, other) + nth(heights, other) / 2 }
      added(sides, 2 * place + side, one)
    })
  })
  for (const [key, ports] of sides) {
    const place = key >> 1
    if (places[place] === undefined) continue
    const room = nth(heights, place) - PORT_MARGIN
    ports.sort((a, b) => a.to - b.to || a.wire - b.wire || a.end - b.end)
    const pitch = Math.min(PORT, room / ports.length)
    const first = nth(tops, place) + (nth(heights, place) - pitch * (ports.length - 1)) / 2
    ports.forEach(({ wire, end }, at) => (nth(height, wire)[end] = first + at * pitch))
  }
  return height
}

interface Down {
  readonly ports: readonly (readonly [number, number])[]
  readonly channels: Channels
  readonly spans: readonly Span[]
  readonly feet: readonly number[]
}

/** The tracks of the gutters between columns, those that go down from their left the lowest first. */
function gutterTracks({ wires }: GroundMap, { routes, columns }: Arranged, { ports, channels, spans }: Down) {
  const gutters: { wire: number; from: number; to: number }[][] = Array.from({ length: columns + 1 }, () => [])
  routes.forEach((route, wire) => {
    if (route === null) return
    const [a, b] = nth(ports, wire)
    const [first, last] = route.gutters
    if (route.direct) nth(gutters, first).push({ wire, from: a, to: b })
    else {
      const over = channelAt(route, channels, spans)(wire)
      nth(gutters, first).push({ wire, from: a, to: over })
      nth(gutters, last).push({ wire, from: over, to: b })
    }
  })
  const at = new Map<number, number>()
  const counts = gutters.map((there, gutter) => {
    const sorted = [
      ...there.filter(({ from, to }) => to >= from).sort((a, b) => b.from - a.from || a.wire - b.wire),
      ...there.filter(({ from, to }) => to < from).sort((a, b) => a.from - b.from || a.wire - b.wire),
    ]
    const tracks = afterAll(sorted.map(({ from, to }) => ({ from: Math.min(from, to), to: Math.max(from, to) })))
    const count = Math.max(0, ...tracks.map(one => one + 1))
    sorted.forEach(({ wire }, one) => at.set(gutter * wires.length + wire, nth(tracks, one) * gutterPitch(count)))
    return count
  })
  return { counts, at: (wire: number, gutter: number) => at.get(gutter * wires.length + wire) ?? 0 }
}

function gutterPitch(count: number): number {
  return Math.min(TRACK, MOST_GUTTER / Math.max(1, count))
}

/** Where columns begin, and the gutters before and behind them. */
function columnsAcross(left: number, columns: number, counts: readonly number[]) {
  const lefts: number[] = []
  const edges: number[] = []
  let x = left
  for (let gutter = 0; gutter <= columns; gutter++) {
    edges.push(x)
    const count = nth(counts, gutter)
    x += 2 * SHOULDER + Math.max(0, count - 1) * gutterPitch(count)
    if (gutter === columns) break
    lefts.push(x)
    x += BOX
  }
  return { lefts, edges, width: x }
}

/** An earth leaves its box at the foot of its left side and goes straight to its bar. */
function earthWay({ places }: GroundMap, { ends }: MapWire, boxes: readonly Box[]): Point[] {
  const isBar = nth(places, ends[0]).kind === 'circuit'
  const [bar, box] = (isBar ? ends : [ends[1], ends[0]]).map(end => nth(boxes, end)) as [Box, Box]
  const x = box.x - EARTH_RAIL
  const y = box.y + box.height - 6
  const foot = bar.y > y ? bar.y : bar.y + bar.height
  const way: Point[] = [
    [x, foot],
    [x, y],
    [box.x, y],
  ]
  return isBar ? way : way.reverse()
}

/** How far before a column its earths go down. */
const EARTH_RAIL = 8
