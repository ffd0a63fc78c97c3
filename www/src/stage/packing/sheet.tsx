import { useMemo } from 'preact/hooks'
import type { InputLine, Row, Show, Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { Cautions } from '../../base/warnings'
import { laid, leadsByLine, leadText, type LeadsOfLine, type PrintLength } from './leads'
import { LinesTable } from './lines-table'
import { equipmentName, gearName } from './names'
import { PaperHead } from './paper-head'
import { usePrint } from './printed'
import type { WholeLines } from './whole-lines'

interface Properties {
  readonly show: Show
  readonly rows: ReadonlyMap<string, Row>
  readonly totals: Totals
  readonly texts: WholeLines
  /** What has to be seen to before anything is plugged. */
  readonly stops: readonly string[]
}

/** The input list for those who build the stage, on paper: one table a stage box. */
export function Sheet(sheet: Properties) {
  const { show, rows, stops } = sheet
  const boxes = [...new Set(show.lines.map(({ stage_box }) => stage_box))]
  return (
    <article class="crew-sheet">
      <PaperHead show={show} title={say('stage-sheet')} />
      <Cautions texts={[...(stops.length > 0 ? stops : [say('stage-sheet-earth')]), ...told(show, rows)]} />
      {boxes.map(box => (
        <OfBox key={box} sheet={sheet} box={box} />
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
function OfBox({ sheet, box }: { readonly sheet: Properties; readonly box: string }) {
  const length = usePrint().length
  const { show, totals } = sheet
  const leads = useMemo(() => leadsByLine(totals), [totals])
  const lines = show.lines.filter(({ stage_box }) => stage_box === box)
  const columns = COLUMNS.map(id => ({
    id,
    head: say(`stage-part-${id}`),
    cell: (line: InputLine) => cell({ ...sheet, leads: leads.get(line.id) ?? {}, length }, line, id),
  }))
  return (
    <section class={lines.length > TOGETHER ? 'of-box' : 'of-box together'}>
      <h2>{box === '' ? say('stage-sheet-no-box') : equipmentName(show, box)}</h2>
      <LinesTable lines={lines} columns={columns} />
    </section>
  )
}

const COLUMNS = ['channel', 'name', 'source', 'lead', 'box', 'thru', 'run', 'patch', 'phantom', 'note'] as const

/** What the cells of a line are told from. */
interface Known extends Pick<Properties, 'show' | 'texts'> {
  readonly leads: LeadsOfLine
  readonly length: PrintLength
}

function cell(known: Known, line: InputLine, column: (typeof COLUMNS)[number]): string {
  const { show, texts, leads, length } = known
  switch (column) {
    case 'source':
      return gearName(show, line.source)
    case 'lead':
      return leadText(leads.first, length)
    case 'box':
      return [box(known, line), gearName(show, line.pad)].filter(text => text !== '').join(' + ')
    case 'thru':
      return listed([equipmentName(show, line.thru), leadText(leads.thru, length)])
    case 'run':
      return listed([line.carried === 'wire' ? '' : say(`stage-carried-${line.carried}`), leadText(leads.run, length)])
    case 'phantom':
      return say(`stage-phantom-${texts.get(line.id)?.['phantom'] ?? 'off'}`)
    case 'note':
      return listed([split(known, line), line.note])
    default:
      return line[column]
  }
}

function listed(texts: readonly string[]): string {
  return texts.filter(text => text !== '').join('; ')
}

/** The box of a line; of a DI, how its ground switch stands. */
function box({ show, texts }: Known, line: InputLine): string {
  const gear = show.gear.find(({ id }) => id === line.di)
  const name = gearName(show, line.di)
  // An isolator has no such switch.
  if (gear?.kind !== 'di') return name
  return `${name}, ${say(`stage-sheet-ground-${texts.get(line.id)?.['ground'] ?? 'joined'}`)}`
}

/** Where the signal goes besides, and by which lead. */
function split({ show, leads, length }: Known, { second, split, phantom_from }: InputLine): string {
  if (split === 'none' || second === '') return ''
  const to = say(`stage-split-${split}`, { second: equipmentName(show, second) })
  const by = leads.second === undefined ? '' : laid(leads.second, length)
  const fed = phantom_from === 'second' ? say('stage-split-phantom') : ''
  return [to, by, fed].filter(text => text !== '').join(', ')
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
