import { language } from '../../base/language'
import { useState } from 'preact/hooks'
import { visible } from '../../base/visible'
import { Wide } from '../../base/wide'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { asks } from '../lesson-state'
import { pointsText } from '../points'
import { stepTitle } from '../title'
import type { Row } from './mark-again'
import { countedOf, noteText, passedText, sureText } from './row-text'

const ORDERS = ['name', 'seed', 'total'] as const
type Order = (typeof ORDERS)[number]

/** The results of one lesson, a learner a row. */
export function ResultsTable({ rows }: { readonly rows: readonly Row[] }) {
  const [order, setOrder] = useState<Order>('name')
  const steps = rows[0]?.lesson?.steps ?? []
  const asked = steps.flatMap((step, at) => (asks(step) ? [at] : []))
  return (
    <Wide name={say('lesson-collect-table')}>
      <table class="lesson-points">
        <thead>
          <tr>
            {ORDERS.map(one => (
              <th
                key={one}
                scope="col"
                aria-sort={one === order ? (one === 'total' ? 'descending' : 'ascending') : undefined}
              >
                <button type="button" class="link" onClick={() => setOrder(one)}>
                  {say(`lesson-collect-${one}`)}
                </button>
              </th>
            ))}
            <th scope="col">{say('lesson-collect-passed')}</th>
            {asked.map(at => (
              <th key={at} scope="col" title={stepTitle(steps[at], at)}>
                {say('lesson-collect-step', { step: `${at + 1}` })}
              </th>
            ))}
            <th scope="col">{say('lesson-confidence')}</th>
            <th scope="col">{say('lesson-collect-notes')}</th>
          </tr>
        </thead>
        <tbody>
          {sorted(rows, order).map((row, index) => (
            <Learner key={`${index} ${row.source}`} row={row} asked={asked} />
          ))}
        </tbody>
      </table>
    </Wide>
  )
}

/** One result. */
function Learner({ row, asked }: { readonly row: Row; readonly asked: readonly number[] }) {
  const settings = useStore(state => state.settings)
  const { result, lesson, marked, notes, points, of } = row
  const total = {
    points: pointsText(points, settings),
    of: pointsText(of, settings),
    percent: `${Math.round((100 * points) / (of || 1))}`,
  }
  return (
    <tr data-notes={notes.join(' ')}>
      <th scope="row" dir="auto">
        <bdi>{visible(result.name) || say('lesson-collect-nameless')}</bdi>
      </th>
      <td>{result.seed}</td>
      <td>{lesson === null ? '–' : say('lesson-total', total)}</td>
      <td>{passedText(row) || '–'}</td>
      {asked.map(at => {
        const one = countedOf(marked[at])
        return <td key={at}>{one === null ? '–' : pointsText(one.points, settings)}</td>
      })}
      <td>{sureText(row)}</td>
      <td>
        {notes.map(note => (
          <p key={note} data-note={note}>
            {noteText(note, row, settings)}
          </p>
        ))}
      </td>
    </tr>
  )
}

function sorted(rows: readonly Row[], order: Order): Row[] {
  const byName = (a: Row, b: Row) => a.result.name.localeCompare(b.result.name, language)
  const orders = {
    name: byName,
    seed: (a: Row, b: Row) => a.result.seed - b.result.seed || byName(a, b),
    total: (a: Row, b: Row) => b.points - a.points || byName(a, b),
  }
  return [...rows].sort(orders[order])
}
