import { useState } from 'preact/hooks'
import type { Heard } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { MARKS, type Predicted } from './predicted'
import { fixed } from './told'

interface Properties {
  readonly heard: Heard
  readonly predicted: readonly Predicted[]
}

/** The harmonics that are heard, beside those that causes would bring. */
export function LinesTable({ heard, predicted }: Properties) {
  const [isOpen, setOpen] = useState(false)
  return (
    <details class="listen-lines" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('fault-listen-lines', { count: `${heard.lines.length}` })}</summary>
      {isOpen && <Table heard={heard} predicted={predicted} />}
    </details>
  )
}

function Table({ heard, predicted }: Properties) {
  const settings = useStore(state => state.settings)
  return (
    <div class="listen-scroll" tabIndex={0} role="group" aria-label={say('fault-listen-lines-label')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('fault-listen-line-harmonic')}</th>
            <th scope="col">{say('fault-listen-line-hz')}</th>
            <th scope="col">{say('fault-listen-line-first')}</th>
            {predicted.map(({ cause }, place) => (
              <th key={cause} scope="col">
                <span aria-hidden="true">{MARKS[place]}</span> {say(`fault-cause-${cause}`)}
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
