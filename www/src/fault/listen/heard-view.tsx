import { useMemo } from 'preact/hooks'
import type { CauseOdds, Heard } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { Families } from './families'
import { Key } from './key'
import { LinesTable } from './lines-table'
import { useLatest, type Latest } from './latest'
import { predictedOf } from './predicted'
import { Spectrum } from './spectrum'
import { fixed, mainsText, sentences } from './told'

interface Properties {
  readonly sound: Latest<Heard | null>
  readonly odds: readonly CauseOdds[]
  /** What comes in, as long as something does. */
  readonly live: Latest<Heard['spectrum']> | null
}

/** What is heard: in sentences, as a spectrum, and as numbers. */
export function HeardView({ sound, odds, live }: Properties) {
  const heard = useLatest(sound)
  const settings = useStore(state => state.settings)
  const predicted = useMemo(() => predictedOf(odds, heard), [odds, heard])
  // What changes ten times as often is not read ten times as well.
  const digits = live === null ? 1 : 0
  const mains = heard === null ? null : mainsText(heard, settings)
  if (heard === null && live === null) return null
  return (
    <div class="listen-heard">
      {heard === null ? (
        <p class="hint">{say('fault-listen-wait')}</p>
      ) : (
        <div class="listen-said">
          {mains !== null && <p class="listen-mains">{mains}</p>}
          {sentences(heard, settings).map((text, place) => (
            <p key={place}>{text}</p>
          ))}
          <p class="hint">
            {say('fault-listen-levels', {
              level: fixed(heard.level, digits, settings),
              noise: fixed(heard.noise, digits, settings),
              seconds: fixed(heard.seconds, digits, settings),
            })}
          </p>
        </div>
      )}
      <Spectrum heard={heard} predicted={predicted} live={live} />
      <Key predicted={predicted} hasLines={heard !== null && heard.lines.length > 0} />
      {heard !== null && heard.families.length > 0 && <Families families={heard.families} />}
      {heard !== null && heard.lines.length > 0 && <LinesTable heard={heard} predicted={predicted} />}
    </div>
  )
}
