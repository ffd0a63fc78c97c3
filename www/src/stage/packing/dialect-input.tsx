import type { Decimal, Separator } from '../../../generated/contract'
import { Segments, choices } from '../../base/segments'
import { say } from '../../base/words'
import { DECIMALS } from './dialect'

interface Properties<One extends Separator> {
  readonly separators: readonly One[]
  readonly separator: One
  readonly onSeparator: (separator: One) => void
  readonly decimal: Decimal
  readonly onDecimal: (decimal: Decimal) => void
}

/** How a table is written, said by the reader. */
export function DialectInput<One extends Separator>({
  separators,
  separator,
  onSeparator,
  decimal,
  onDecimal,
}: Properties<One>) {
  return (
    <div class="dialect">
      <Segments
        name="separator"
        legend={say('stage-table-separator')}
        options={choices('stage-table-separator', separators)}
        value={separator}
        onChoose={onSeparator}
      />
      <Segments
        name="decimal"
        legend={say('stage-table-decimal')}
        options={choices('stage-table-decimal', DECIMALS)}
        value={decimal}
        onChoose={onDecimal}
      />
    </div>
  )
}
