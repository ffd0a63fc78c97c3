import type { InputLine, Row, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { Cautions } from '../../base/warnings'
import { equipmentName, gearName } from './names'
import { PaperHead } from './paper-head'
import type { WholeLines } from './whole-lines'

interface Properties {
  readonly show: Show
  readonly rows: ReadonlyMap<string, Row>
  readonly texts: WholeLines
  /** What has to be seen to before anything is plugged. */
  readonly stops: readonly string[]
}

/** The input list for those who build the stage, on paper: one table a stage box. */
export function Sheet({ show, rows, texts, stops }: Properties) {
  const boxes = [...new Set(show.lines.map(({ stage_box }) => stage_box))]
  return (
    <article class="crew-sheet">
      <PaperHead show={show} title={say('stage-sheet')} />
      <Cautions texts={[...stops, ...told(show, rows), say('stage-sheet-earth')]} />
      {boxes.map(box => (
        <OfBox key={box} show={show} texts={texts} box={box} />
      ))}
      <Power show={show} />
      {show.notes !== '' && <p>{show.notes}</p>}
    </article>
  )
}

/** Which lines must not be plugged as they are, and which could not be worked out. */
function told({ lines }: Show, rows: ReadonlyMap<string, Row>): string[] {
  const channels = (which: (row: Row) => boolean) =>
    lines
      .filter(({ id }) => [rows.get(id)].some(row => row !== undefined && which(row)))
      .map(({ channel, name }) => channel || name)
      .join(', ')
  const [stop, unsolved] = [channels(({ stop }) => stop), channels(({ problems }) => problems.length > 0)]
  return [
    ...(stop === '' ? [] : [say('stage-sheet-stop', { channels: stop })]),
    ...(unsolved === '' ? [] : [say('stage-sheet-unsolved', { channels: unsolved })]),
  ]
}

/** So many lines stay together on one page. */
const TOGETHER = 20

/** What comes in at one stage box. */
function OfBox({ show, texts, box }: Pick<Properties, 'show' | 'texts'> & { readonly box: string }) {
  const lines = show.lines.filter(({ stage_box }) => stage_box === box)
  return (
    <section class={lines.length > TOGETHER ? 'of-box' : 'of-box together'}>
      <h2>{box === '' ? say('stage-sheet-no-box') : equipmentName(show, box)}</h2>
      <Table show={show} texts={texts} lines={lines} />
    </section>
  )
}

const COLUMNS = ['channel', 'name', 'source', 'box', 'thru', 'run', 'patch', 'phantom', 'note'] as const

interface TableProperties extends Pick<Properties, 'show' | 'texts'> {
  readonly lines: readonly InputLine[]
}

function Table({ show, texts, lines }: TableProperties) {
  // A column in which nothing stands takes room from the others.
  const columns = COLUMNS.filter(column => lines.some(line => cell(show, line, texts, column) !== ''))
  return (
    <table>
      <thead>
        <tr>
          {columns.map(column => (
            <th key={column} scope="col">
              {say(`stage-part-${column}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map(line => (
          <tr key={line.id}>
            {columns.map(column => (
              <td key={column} data-column={column}>
                {cell(show, line, texts, column)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function cell(show: Show, line: InputLine, texts: WholeLines, column: (typeof COLUMNS)[number]): string {
  switch (column) {
    case 'source':
      return gearName(show, line.source)
    case 'box':
      return [line.di, line.pad].flatMap(id => (id === '' ? [] : [gearName(show, id)])).join(' + ')
    case 'thru':
      return equipmentName(show, line.thru)
    case 'run':
      return line.carried === 'wire' ? gearName(show, line.run) : say(`stage-carried-${line.carried}`)
    case 'phantom':
      return say(`stage-phantom-${texts.get(line.id)?.['phantom'] ?? 'off'}`)
    case 'note':
      return [split(show, line), line.note].filter(text => text !== '').join('; ')
    default:
      return line[column]
  }
}

/** Where the signal goes besides. */
function split(show: Show, { second, split, phantom_from }: InputLine): string {
  if (split === 'none' || second === '') return ''
  const to = say(`stage-split-${split}`, { second: equipmentName(show, second) })
  return phantom_from === 'second' ? `${to}, ${say('stage-split-phantom')}` : to
}

/** Which equipment is on which circuit. */
function Power({ show }: Pick<Properties, 'show'>) {
  const on = (circuit: string) => show.equipment.filter(one => one.circuit === circuit && one.power !== 'battery')
  const batteries = show.equipment.filter(({ power }) => power === 'battery')
  const names = (equipment: Show['equipment']) => equipment.map(({ name, id }) => name || id).join(', ')
  if (show.power.length === 0 && batteries.length === 0) return null
  return (
    <section class="of-power">
      <h2>{say('stage-sheet-power')}</h2>
      <ul>
        {show.power.map(({ id, name, difference, note }) => (
          <li key={id}>
            <strong>{name || id}</strong>: {names(on(id)) || '–'}
            {difference !== '' && `; ${say('stage-sheet-difference', { difference })}`}
            {note !== '' && `; ${note}`}
          </li>
        ))}
        {batteries.length > 0 && (
          <li>
            <strong>{say('stage-sheet-batteries')}</strong>: {names(batteries)}
          </li>
        )}
      </ul>
    </section>
  )
}
