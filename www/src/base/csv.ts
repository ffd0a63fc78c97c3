// Tables as text for spreadsheets, by RFC 4180. Where the decimal sign is a
// comma, spreadsheets take a semicolon between cells.

import type { Settings } from '../../generated/contract'

export type Cell = string | number

export function csvOf(rows: readonly (readonly Cell[])[], { decimal }: Settings): string {
  const between = decimal === 'comma' ? ';' : ','
  const text = (cell: Cell) => {
    if (typeof cell === 'string') return cell.replaceAll('\u00a0', ' ')
    if (!Number.isFinite(cell)) return ''
    const digits = String(Number(cell.toPrecision(9)))
    return decimal === 'comma' ? digits.replace('.', ',') : digits
  }
  const quoted = (cell: string) =>
    /["\r\n]/.test(cell) || cell.includes(between) ? `"${cell.replaceAll('"', '""')}"` : cell
  // Without the mark some spreadsheets take the letters for others.
  return `\ufeff${rows.map(row => row.map(cell => quoted(text(cell))).join(between) + '\r\n').join('')}`
}
