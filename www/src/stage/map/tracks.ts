// Side by side: what runs along one another has a track of its own.

import { nth } from './nth'
export interface Span {
  readonly from: number
  readonly to: number
}

/** The least tracks in which no two spans meet, in their order as far as that goes. */
export function apart(spans: readonly Span[]): number[] {
  const ends: number[] = []
  const track = spans.map(() => 0)
  const order = spans.map((_, index) => index).sort((a, b) => nth(spans, a).from - nth(spans, b).from || a - b)
  for (const index of order) {
    const { from, to } = nth(spans, index)
    const free = ends.findIndex(end => end < from)
    track[index] = free < 0 ? ends.length : free
    ends[nth(track, index)] = to
  }
  return track
}

/** Tracks in which each span stands behind all before it that it meets, so that these need not cross. */
export function afterAll(spans: readonly Span[]): number[] {
  const track: number[] = []
  spans.forEach(({ from, to }, index) => {
    let next = 0
    for (let before = 0; before < index; before++) {
      const other = nth(spans, before)
      if (nth(track, before) >= next && other.from <= to && other.to >= from) next = nth(track, before) + 1
    }
    track.push(next)
  })
  return track
}
