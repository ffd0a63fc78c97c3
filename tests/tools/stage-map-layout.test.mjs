// The layout of the ground map: whatever the map, its picture can be read.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { madeUp } from '../fixtures/ground-map.mjs'
import { pageWith } from '../fuzz/page.mjs'

const page = pageWith('stage/map/layout.ts', 'stage/map/lit.ts')()
const { layOut } = page.layout
const { litBy, litBoxes, litEarths } = page.lit

/** Corners are computed, so they may be beside an edge by so much. */
const EXACT = 1e-6

function isOn([x, y], box) {
  const [right, foot] = [box.x + box.width, box.y + box.height]
  const inside = x > box.x - EXACT && x < right + EXACT && y > box.y - EXACT && y < foot + EXACT
  const edge = [x - box.x, x - right, y - box.y, y - foot].some(distance => Math.abs(distance) < EXACT)
  return inside && edge
}

function overlap(a, b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
}

/** Whether a stretch of a wire goes through the inside of a box. */
function crosses([ax, ay], [bx, by], box) {
  const [left, right] = [Math.min(ax, bx), Math.max(ax, bx)]
  const [top, foot] = [Math.min(ay, by), Math.max(ay, by)]
  return (
    left < box.x + box.width - EXACT &&
    right > box.x + EXACT &&
    top < box.y + box.height - EXACT &&
    foot > box.y + EXACT
  )
}

function check(map) {
  const { boxes, ways, lanes, width, height } = layOut(map)
  assert.equal(boxes.length, map.places.length)
  assert.equal(ways.length, map.wires.length)
  const isBar = map.places.map(({ kind }) => kind === 'circuit')
  boxes.forEach((a, at) => {
    assert.ok(a.x >= 0 && a.y >= 0 && a.x + a.width <= width + EXACT && a.y + a.height <= height + EXACT)
    for (const b of boxes.slice(at + 1)) assert.ok(!overlap(a, b))
  })
  ways.forEach((way, at) => {
    map.wires[at].ends.forEach((end, which) => {
      const corner = which === 0 ? way[0] : way.at(-1)
      assert.ok(isOn(corner, boxes[end]), `wire ${at} ends at its place`)
    })
    way.slice(1).forEach(([x, y], corner) => {
      const [fromX, fromY] = way[corner]
      assert.ok(Math.abs(x - fromX) < EXACT || Math.abs(y - fromY) < EXACT, 'wires go along or down')
      boxes.forEach((box, place) => {
        if (!isBar[place]) assert.ok(!crosses([fromX, fromY], [x, y], box), `wire ${at} runs through ${place}`)
      })
    })
  })
  map.places.forEach(({ kind, circuit }, at) => {
    if (kind !== 'equipment') return
    const lane = lanes.find(lane => boxes[at].y >= lane.y && boxes[at].y < lane.y + lane.height)
    assert.equal(lane.circuit === null ? '' : map.places[lane.circuit].id, circuit, 'it is in the lane of its circuit')
  })
}

for (const [places, wires] of [
  [3, 2],
  [10, 15],
  [100, 200],
  [500, 1000],
]) {
  test(`${places} places and ${wires} wires stand apart, and what joins them ends at them`, () => {
    const map = madeUp(places, wires)
    assert.ok(map.wires.length >= wires - 1)
    check(map)
  })
}

/** How many ends of what is lit, and sides of a box, come to each point: on a closed way two or more. */
function looseEnds(map, layout, lit) {
  const ways = [...lit.wires.map(wire => layout.ways[wire]), ...litEarths(map, layout, lit)]
  const boxes = litBoxes(map, layout, lit)
  const isAt = (point, [a, b]) => {
    const [x, y] = point
    const along = (from, to, value) => value > Math.min(from, to) - EXACT && value < Math.max(from, to) + EXACT
    return along(a[0], b[0], x) && along(a[1], b[1], y)
  }
  return ways.flatMap((way, at) =>
    [way[0], way.at(-1)].filter(point => {
      if (boxes.some(box => isOn(point, box))) return false
      const others = ways.filter((_, other) => other !== at)
      return !others.some(other => other.slice(1).some((to, corner) => isAt(point, [other[corner], to])))
    }),
  )
}

test('a loop that is lit is a closed way, through the earth of the venue where it goes there', () => {
  const map = madeUp(60, 90)
  const layout = layOut(map)
  const [across] = map.loops
  assert.notEqual(...[0, 2].map(at => map.wires[across.wires[at]].ends[0]), 'its earths are those of two circuits')
  map.loops.forEach((_, at) => {
    const lit = litBy(map, { kind: 'loop', at })
    assert.deepEqual(looseEnds(map, layout, lit), [])
    const circuits = new Set(
      map.loops[at].wires.flatMap(wire => map.wires[wire].ends).filter(end => map.places[end].kind === 'circuit'),
    )
    assert.equal(lit.circuits.length, circuits.size > 1 ? circuits.size : 0)
  })
})

test('the earth of the venue stands beside the bars of all circuits, and none where there are none', () => {
  const map = madeUp(60, 90)
  const { venue, boxes } = layOut(map)
  map.places.forEach(({ kind }, at) => {
    if (kind !== 'circuit') return
    assert.ok(venue.x + venue.width < boxes[at].x)
    assert.ok(venue.y <= boxes[at].y && venue.y + venue.height >= boxes[at].y + boxes[at].height)
  })
  assert.equal(layOut({ places: [], wires: [] }).venue, null)
})

test('the same map is laid out the same', () => {
  assert.deepEqual(layOut(madeUp(60, 120)), layOut(madeUp(60, 120)))
})

test('parallel leads have ways of their own', () => {
  const map = madeUp(10, 12)
  const [wire] = map.wires.filter(({ kind }) => kind === 'line')
  map.wires.push({ ...wire }, { ...wire })
  const ways = layOut(map).ways.filter((_, at) => map.wires[at].id === wire.id && map.wires[at].kind === 'line')
  assert.equal(ways.length, 3)
  assert.equal(new Set(ways.map(way => JSON.stringify(way))).size, 3)
})

test('nothing, rings of leads and leads to a place itself are laid out too', () => {
  layOut({ places: [], wires: [] })
  const place = fc.record({
    kind: fc.constantFrom('equipment', 'joint'),
    circuit: fc.constantFrom('', 'a', 'b', 'gone'),
  })
  const wire = fc.tuple(fc.nat(), fc.nat(), fc.constantFrom('line', 'lead', 'thru', 'split', 'link', 'metalwork'))
  fc.assert(
    fc.property(fc.array(place, { minLength: 1, maxLength: 14 }), fc.array(wire, { maxLength: 20 }), (free, joined) => {
      const circuits = ['a', 'b'].map(id => ({ kind: 'circuit', id, circuit: id }))
      const places = [...circuits, ...free.map((one, at) => ({ ...one, id: `p${at}` }))]
      const end = at => circuits.length + (at % free.length)
      const wires = joined.map(([from, to, kind]) => ({ kind, ends: [end(from), end(to)], id: '' }))
      // What stands on a circuit that is gone stands with what is on none.
      const told = places.map(one => (one.circuit === 'gone' ? { ...one, circuit: '' } : one))
      check({ places: told, wires })
    }),
    { numRuns: 300 },
  )
})
