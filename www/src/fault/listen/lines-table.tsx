import { useState } from 'preact/hooks'
import type { CauseOdds, Heard } from '../../../generated/contract'
import { percent } from '../../base/percent'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { useLatest, type Latest } from './latest'
import { MARKS } from './predicted'
import { fixed } from './told'
import { usePredicted } from './use-predicted'

interface Properties {
  readonly sound: Latest<Heard | null>
  readonly odds: readonly CauseOdds[]
}

/** The harmonics that are heard, beside those that causes would bring. */
export function LinesTable({ sound, odds }: Properties) {
  const [isOpen, setOpen] = useState(false)
  const heard = useLatest(sound)
  if (heard === null || heard.lines.length === 0) return null
  return (
    <details class="listen-lines" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('fault-listen-lines', { count: `${heard.lines.length}` })}</summary>
      {isOpen && <Table heard={heard} odds={odds} />}
    </details>
  )
}

function Table({ heard, odds }: { readonly heard: Heard; readonly odds: readonly CauseOdds[] }) {
  const predicted = usePredicted(odds, heard)
  const settings = useStore(state => state.settings)
  return (
    <div class="listen-scroll" tabIndex={0} role="group" aria-label={say('fault-listen-lines-label')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('fault-listen-line-harmonic')}</th>
            <th scope="col">{say('fault-listen-line-hz')}</th>
            <th scope="col">{say('fault-listen-line-first')}</th>
            {predicted.map(({ cause, share }, place) => (
              <th key={cause} scope="col">
                <span aria-hidden="true">{MARKS[place]}</span> {say(`fault-cause-${cause}`)} ({percent(share)})
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {heard.lines.map(({ harmonic, hz, first }) => (
            <tr key={harmonic}>
              <th scope="row">{`${harmonic}`}</th>
              <td>{fixed(hz, 2, settings)}</td>
              <td>{fixed(first, 1, settings)}</td>
              {predicted.map(({ cause, lines }) => {
                const level = lines.get(harmonic)
                return <td key={cause}>{level === undefined ? '–' : fixed(level, 1, settings)}</td>
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
