// What stands on the label of a line, and in its code.

import type { InputLine, Settings, Show } from '../../../generated/contract'
import { descriptionOf } from '../../screen/descriptions'
import { fresh, linkOf } from '../../screen/link'
import { getState } from '../../screen/store'
import { whole } from '../../screen/address'
import { qrPath, type QrPath } from '../../share/qr-code'
import { lineName } from './names'
import type { WholeLines } from './whole-lines'

const WHOLE_LINE = 'whole-line'
/** So many squares a code may be wide: printed 30 mm wide, each has a third of a millimetre, which cameras still tell apart. */
const MOST_SQUARES = 89

export interface Label {
  readonly line: InputLine
  /** How long the lead is. */
  readonly length: string
  readonly code: QrPath | null
}

/** A label for each line that has a lead. */
export function labelsOf(show: Show, texts: WholeLines, lengthOf: (id: string) => string): Label[] {
  return show.lines
    .filter(({ carried }) => carried !== 'radio')
    .map(line => {
      const values = texts.get(line.id) ?? {}
      const length = lengthOf(line.id)
      const link = linkTo(show, values)
      const code = link === null ? null : qrPath(link)
      const plain = [lineName(line), line.patch, length].filter(text => text !== '').join(' · ')
      return { line, length, code: code !== null && code.size <= MOST_SQUARES ? code : qrPath(plain) }
    })
}

/** The whole line with these values, where others can open it. */
function linkTo({ mains }: Show, values: Readonly<Record<string, string>>): string | null {
  if (!/^https?:/.test(location.protocol)) return null
  // The texts of a show are written like that, whatever the reader's settings.
  const settings: Settings = { ...getState().settings, decimal: 'point', length: 'metre', mains }
  const fields = descriptionOf(WHOLE_LINE, settings)?.fields ?? []
  // A link names what differs from the start.
  const start = new Map(fields.map(({ id, number, choice }) => [id, number?.default_text ?? choice?.default]))
  // A space that breaks no line means no more than another, and is shorter in a link.
  const told = Object.entries(values).filter(([id, text]) => start.get(id) !== text)
  const texts = told.map(([id, text]) => [id, text.replaceAll('\u00a0', ' ')])
  const hash = linkOf(fresh(WHOLE_LINE, Object.fromEntries(texts)), settings)
  return hash === null ? null : whole(hash)
}
