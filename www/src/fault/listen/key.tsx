import type { ComponentChildren } from 'preact'
import type { CauseOdds, Heard } from '../../../generated/contract'
import { percent } from '../../base/percent'
import { say } from '../../base/words'
import { markAt } from './draw'
import { useLatest, type Latest } from './latest'
import { isFirstPredicted } from './predicted'
import { usePredicted } from './use-predicted'

interface Properties {
  readonly sound: Latest<Heard | null>
  readonly odds: readonly CauseOdds[]
}

const [WIDE, HIGH] = [28, 16]

/** What each curve and mark of the spectrum is. */
export function Key({ sound, odds }: Properties) {
  const heard = useLatest(sound)
  const isFirst = isFirstPredicted(odds)
  // What an unlikely cause would bring is worth no words before it stands in the picture.
  const predicted = usePredicted(odds, heard).filter(({ points }) => isFirst || points.length > 0)
  return (
    <ul class="listen-key" role="list">
      <li>
        <Sample>
          <path class="listen-curve" d={`M2 ${HIGH - 4}L10 5L16 ${HIGH - 5}L26 8`} />
        </Sample>
        {say('fault-listen-key-heard')}
      </li>
      {heard !== null && heard.lines.length > 0 && (
        <li>
          <Sample>
            <g class="listen-harmonics">
              <line x1="10" x2="10" y1="1" y2={HIGH - 1} />
              <line x1="18" x2="18" y1="1" y2={HIGH - 1} />
            </g>
          </Sample>
          {say('fault-listen-key-lines')}
        </li>
      )}
      {predicted.length > 0 && !isFirst && <li class="listen-unknown">{say('fault-listen-key-unknown')}</li>}
      {predicted.map(({ cause, share, points }, place) => (
        <li key={cause} data-cause={cause}>
          <Sample>
            <g class="listen-marks" data-set={place + 1}>
              <path d={markAt(place, WIDE / 2, HIGH / 2, 5)} />
            </g>
          </Sample>
          {say(`fault-listen-key-cause${points.length === 0 ? '-none' : isFirst ? '' : '-other'}`, {
            cause: say(`fault-cause-${cause}`),
            share: percent(share),
          })}
        </li>
      ))}
    </ul>
  )
}

function Sample({ children }: { readonly children: ComponentChildren }) {
  return (
    <svg viewBox={`0 0 ${WIDE} ${HIGH}`} width={WIDE} height={HIGH} aria-hidden="true">
      {children}
    </svg>
  )
}
