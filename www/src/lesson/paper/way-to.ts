// What of the working of a calculator leads to one reading: its own step, and those whose
// symbols that one takes up. Of many steps alike, which readers would unfold, none is told.

import type { Reading, Step } from '../../../generated/contract'

/** How far two prints of one value may lie apart. */
const SAME = 1e-9
/** So many figures are enough on paper. */
const FIGURES = 3

/** The steps that a reading depends on, in their order; none where its own is not among them. */
export function wayTo({ name, text, value }: Reading, steps: readonly Step[]): Step[] {
  const isSame = (step: Step) =>
    !step.chain && value !== null && Math.abs(step.value - value) <= SAME * Math.abs(value) && step.imaginary === 0
  const same = steps.filter(isSame)
  const alike = same.filter(step => value !== 0 && unitOf(step.result) === unitOf(text))
  const own = same.find(step => step.name === name) ?? (alike.length === 1 ? alike[0] : undefined)
  if (own === undefined) return []
  const needed = new Set([own])
  // Each takes up what was found before it.
  for (const [at, step] of [...steps.entries()].reverse()) {
    if (!needed.has(step)) continue
    for (const symbol of symbolsIn(step)) {
      const source = steps
        .slice(0, at)
        .filter(before => symbolOf(before) === symbol)
        .at(-1)
      if (source !== undefined && !source.chain && isPutInto(source, step)) needed.add(source)
    }
  }
  return steps.filter(step => needed.has(step))
}

/** Texts with no more than three figures a number. */
export function inFewFigures(text: string): string {
  return text.replaceAll(/\d+(?:([.,])\d+)?/g, (number, point?: string) => {
    const figures = number.replace(/^[0.,]+/, '').replace(/[.,]/, '')
    if (figures.length <= FIGURES) return number
    const short = `${Number(Number(number.replace(',', '.')).toPrecision(FIGURES))}`
    return point === undefined ? short : short.replace('.', point)
  })
}

function symbolOf({ formula }: Step): string {
  return formula.split(' = ')[0] ?? ''
}

function symbolsIn({ formula }: Step): string[] {
  return formula.slice(formula.indexOf(' = ') + 3).match(/[\p{L}_][\p{L}\p{N}_′]*/gu) ?? []
}

/** A symbol may have got another number meanwhile. */
function isPutInto({ result }: Step, { numbers }: Step): boolean {
  return numbers.includes(result.replace(/^\((.*)\)$/, '$1'))
}

/** What stands behind the number, without its prefix as both are printed alike. */
function unitOf(text: string): string {
  return text.split('\u00a0').slice(1).join(' ')
}
