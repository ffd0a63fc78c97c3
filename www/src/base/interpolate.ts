// What scales need of interpolation: between numbers. It stands in for the
// library's own, which brings colours, dates and transforms along.

type Interpolator = (part: number) => number

export function interpolateNumber(from: number, to: number): Interpolator {
  return part => from * (1 - part) + to * part
}

export function interpolateRound(from: number, to: number): Interpolator {
  return part => Math.round(from * (1 - part) + to * part)
}

// The last name is asked for by scales that the page has no use for, and is never called.
export { interpolateNumber as interpolate, interpolateNumber as piecewise }
