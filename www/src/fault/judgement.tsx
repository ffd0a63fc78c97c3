import type { CauseOdds, Settings } from '../../generated/contract'
import { useId, useState } from 'preact/hooks'
import { percent } from '../base/percent'
import { say } from '../base/words'
import { getState, isEmbedded } from '../screen/store'
import type { Search } from './address'
import { countedHere, keepTimes, without } from './counted'
import { causeName, numeral } from './said'
import { go, timesOf } from './search-state'
import { forgetWalks } from './walks'

/** What a cause can be taken to be as common as, beside how it is judged. */
const STEPS = [0.25, 0.5, 1, 2, 4]

interface Properties {
  readonly search: Search
  readonly odds: readonly CauseOdds[]
}

/** How common each cause is taken to be: judgement, which the reader may change, and what was counted here. */
export function Judgement({ search, odds }: Properties) {
  const counted = countedHere()
  const times = timesOf(search)
  const [told, setTold] = useState('')
  const put = (next: Readonly<Record<string, number>>) => {
    const changed = without(next, 1)
    keepTimes(changed)
    go({ times: Object.keys(changed).length === 0 ? null : changed })
  }
  const forget = () => {
    forgetWalks()
    setTold(say('fault-counted-none'))
    go({})
  }
  if (odds.length === 0) return null
  const sum = Object.values(counted).reduce((sum, seen) => sum + seen, 0)
  return (
    <details class="fault-judgement">
      <summary>{say('fault-judgement')}</summary>
      <p class="hint">{say('fault-judgement-what')}</p>
      <ul>
        {[...odds]
          .sort((a, b) => b.common - a.common)
          .map(one => (
            <Common
              key={one.cause}
              odds={one}
              times={times[one.cause] ?? 1}
              seen={counted[one.cause] ?? 0}
              settings={search.settings}
              onTimes={chosen => put({ ...times, [one.cause]: chosen })}
            />
          ))}
      </ul>
      <div class="tools">
        <button type="button" class="chip" disabled={Object.keys(times).length === 0} onClick={() => put({})}>
          {say('fault-judgement-reset')}
        </button>
        {!isEmbedded(getState()) && (
          <button type="button" class="chip" disabled={sum === 0} onClick={forget}>
            {say('fault-counted-reset', { count: `${sum}` })}
          </button>
        )}
        <span role="status">{told}</span>
      </div>
    </details>
  )
}

interface CommonProperties {
  readonly odds: CauseOdds
  readonly times: number
  readonly seen: number
  readonly settings: Settings
  readonly onTimes: (times: number) => void
}

function Common({ odds: { cause, common }, times, seen, settings, onTimes }: CommonProperties) {
  const id = useId()
  const steps = STEPS.includes(times) ? STEPS : [...STEPS, times].sort((a, b) => a - b)
  return (
    <li>
      <label for={id}>{causeName(cause)}</label>
      <span class="hint">
        {say('fault-common', { share: percent(common) })}
        {seen > 0 && ` ${say('fault-seen', { count: `${seen}` })}`}
      </span>
      <select id={id} value={`${times}`} onChange={event => onTimes(Number(event.currentTarget.value))}>
        {steps.map(step => (
          <option key={step} value={`${step}`}>
            {step === 1 ? say('fault-times-one') : timesText(step, settings)}
          </option>
        ))}
      </select>
    </li>
  )
}

function timesText(times: number, settings: Settings): string {
  if (times === 0.25) return '× ¼'
  if (times === 0.5) return '× ½'
  return `× ${numeral(times, times % 1 === 0 ? 0 : 2, settings)}`
}
