// What scales need of interpolation: between numbers. It stands in for the
// library's own, which brings colours, dates and transforms along.

type Interpolator = (part: number) => number

export function interpolateNumber(from: number, to: number): Interpolator {
  return part => from * (1 - part) + to * part
}

export function interpolateRound(from: number, to: number): Interpolator {
  return part => Math.round(from * (1 - part) + to * part)
}

export { interpolateNumber as interpolate, interpolateNumber as piecewise }
