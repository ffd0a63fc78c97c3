// How a table is written: looked at first, but said by the reader.

import type { Decimal, Separator } from '../../../generated/contract'

export const SEPARATORS = ['comma', 'semicolon', 'tab'] as const
export const DECIMALS = ['point', 'comma'] as const

const SIGNS: Readonly<Record<Separator, string>> = { comma: ',', semicolon: ';', tab: '\t' }

/** What the first line of a table suggests: the sign that is there most often outside of quotation marks. */
export function firstLook(text: string): { readonly separator: Separator; readonly decimal: Decimal } {
  const [head = ''] = text.split(/[\r\n]/, 1)
  const bare = head.replace(/"[^"]*"/g, '')
  const count = (separator: Separator) => bare.split(SIGNS[separator]).length
  const separator = SEPARATORS.reduce((best, one) => (count(one) > count(best) ? one : best))
  // Where a semicolon stands between cells, the comma is mostly in the numbers.
  return { separator, decimal: separator === 'semicolon' ? 'comma' : 'point' }
}
