// The leads of each line as they are counted, in words.

import type { LeadPlace, Totals } from '../../../generated/contract'
import { say } from '../../base/words'

/** A lead of a line. */
export interface LineLead {
  readonly name: string
  /** m; zero where nobody says. */
  readonly length: number
  /** The lengths of its pieces; none where it is missing, or not from the drawer. */
  readonly pieces: readonly number[]
}

/** The leads of a line, by place. */
export type LeadsOfLine = Readonly<Partial<Record<LeadPlace, LineLead>>>

export type PrintLength = (metres: number) => string

export function leadsByLine({ leads }: Totals): ReadonlyMap<string, LeadsOfLine> {
  const byLine = new Map<string, LeadsOfLine>()
  for (const { name, needs } of leads) {
    for (const { place, length, lines, made } of needs) {
      const pieces = new Map(made.flatMap(made => made.lines.map(line => [line, made.pieces] as const)))
      for (const line of lines) {
        byLine.set(line, { ...byLine.get(line), [place]: { name, length, pieces: pieces.get(line) ?? [] } })
      }
    }
  }
  return byLine
}

/** A length, or that nobody says. */
export function lengthOf(metres: number, length: PrintLength): string {
  return metres > 0 ? length(metres) : say('stage-pack-no-length')
}

/** Pieces of a lead, such as 10 m + 2 × 5 m. */
export function piecesOf(pieces: readonly number[], length: PrintLength): string {
  const counted = [...new Set(pieces)].map(piece => {
    const count = pieces.filter(other => other === piece).length
    return count > 1 ? say('stage-so-many', { count: `${count}`, name: length(piece) }) : length(piece)
  })
  return counted.join(' + ')
}

/** What is laid: the piece, or how long it becomes and of what it is joined. */
export function laid({ length: metres, pieces }: Pick<LineLead, 'length' | 'pieces'>, length: PrintLength): string {
  const [one, ...more] = pieces
  if (one === undefined) return lengthOf(metres, length)
  if (more.length === 0) return lengthOf(one, length)
  return say('stage-pack-made-from', { length: lengthOf(metres, length), pieces: piecesOf(pieces, length) })
}

/** The kind of a lead and how long it is; nothing where there is none. */
export function leadText(lead: LineLead | undefined, length: PrintLength): string {
  if (lead === undefined) return ''
  return [lead.name, laid(lead, length)].filter(text => text !== '').join(', ')
}
