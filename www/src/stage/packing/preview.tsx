import type { InputLine, Show, Told } from '../../../generated/contract'
import { Wide } from '../../base/wide'
import { say } from '../../base/words'
import { LinesTable, type LineColumn } from './lines-table'
import { equipmentName, gearName } from './names'

/** So many rows are shown as they will be read, and so many flaws. */
const ROWS = 5
const FLAWS = 100

/** The columns of a row that name something of the show, and that are plain texts. */
const GEAR = ['source', 'lead', 'di', 'run', 'pad', 'input'] as const
const EQUIPMENT = ['equipment', 'thru', 'stage_box', 'destination', 'second'] as const
const COLUMNS = ['channel', 'name', ...GEAR, 'patch', ...EQUIPMENT, 'circuit', 'pair', 'note'] as const

interface Properties {
  readonly show: Show
  readonly lines: readonly InputLine[]
  readonly flaws: readonly Told[]
}

/** The first rows as they will be read, and what is wrong with the table. */
export function Preview({ show, lines, flaws }: Properties) {
  return (
    <>
      <p role="status">{say('stage-table-read', { rows: `${lines.length}`, flaws: `${flaws.length}` })}</p>
      {flaws.length > 0 && (
        <details class="flaws" open={flaws.length <= ROWS}>
          <summary>{say('stage-table-flaws')}</summary>
          <ul>
            {flaws.slice(0, FLAWS).map((flaw, index) => (
              <li key={index}>{flaw.text}</li>
            ))}
            {flaws.length > FLAWS && <li>{say('stage-table-more-flaws', { count: `${flaws.length - FLAWS}` })}</li>}
          </ul>
        </details>
      )}
      {lines.length > 0 && <FirstRows show={show} lines={lines.slice(0, ROWS)} />}
    </>
  )
}

function FirstRows({ show, lines }: Pick<Properties, 'show' | 'lines'>) {
  const own = [...new Set(lines.flatMap(line => Object.keys(line.values)))]
  const columns: LineColumn[] = [
    ...COLUMNS.map(id => ({ id, head: say(`stage-part-${id}`), cell: (line: InputLine) => cell(show, line, id) })),
    ...own.map(id => ({ id, head: id, cell: ({ values }: InputLine) => values[id] ?? '' })),
  ]
  return (
    <Wide name={say('stage-table-preview')}>
      <LinesTable class="preview" caption={say('stage-table-preview')} lines={lines} columns={columns} />
    </Wide>
  )
}

function cell(show: Show, line: InputLine, column: (typeof COLUMNS)[number]): string {
  const text = line[column]
  if (text === '') return ''
  if (GEAR.some(known => known === column)) return gearName(show, text)
  if (EQUIPMENT.some(known => known === column)) return equipmentName(show, text)
  return text
}
