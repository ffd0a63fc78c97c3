import { useState } from 'preact/hooks'
import type { Description } from '../../generated/contract'
import { choices, Segments } from '../base/segments'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import type { HearingWays } from '../engine/hearing'
import { Adds } from './adds'
import { Compared } from './compared'
import { loudnessText } from './figures'
import { isKeyOn, keepKeyOn, useSwitchKey } from './keys'
import { useRigs, otherOf, type Against, type Rig } from './rigs'
import { unfit, type Source } from './source'
import { SourceChoice } from './source-choice'
import { Switch } from './switch'
import { Told } from './told'
import { isTouched } from './touched'
import { useHearing } from './use-hearing'
import { useSource } from './use-source'
import { Volume } from './volume'

const ALL: HearingWays = { matched: true, hum: true, noise: true, clipping: true }

/** The rig on the screen and another one, to be heard in turn. */
export function Panel({ description }: { readonly description: Description }) {
  const settings = useStore(state => state.settings)
  const { now, others } = useRigs(description)
  const [against, setAgainst] = useState<Against | null>(null)
  const [ways, setWays] = useState(ALL)
  const [volume, setVolume] = useState(0)
  const [keyed, setKeyed] = useState(isKeyOn)
  const other = otherOf(others, against)
  const { source, choose, reject } = useSource()
  const rigs: readonly [Rig, Rig] = [now, other]
  const hearing = useHearing({ rigs, ways, source, volume, onWrongRecording: reject })
  const { sounding, heard, why } = hearing
  useSwitchKey(keyed && sounding.kind === 'playing', hearing.toggle)
  const take = (source: Source) => {
    const wrong = 'file' in source ? unfit(source.file) : null
    hearing.chosen(wrong)
    if (wrong === null) choose(source)
  }
  return (
    <div class="hear-panel">
      <Caution />
      <Switch rigs={rigs} sounding={sounding} onPlay={hearing.play} onToggle={hearing.toggle} onStop={hearing.stop} />
      {why !== null && <Told why={why} />}
      <Compared others={others} other={other} onOther={setAgainst} />
      <SourceChoice source={source} onSource={take} />
      <Segments
        name="hear-level"
        legend={say('hear-level')}
        options={choices('hear-level', ['matched', 'as-is'])}
        value={ways.matched ? 'matched' : 'as-is'}
        onChoose={id => setWays({ ...ways, matched: id === 'matched' })}
      />
      {heard !== null && <p class="hint">{loudnessText(heard, settings)}</p>}
      {heard?.sides.unheard && <p class="hear-unheard">{say('hear-unheard')}</p>}
      <Adds rigs={rigs} ways={ways} onWays={setWays} />
      <Volume label={say('hear-volume')} value={volume} onChange={setVolume} />
      {!isTouched() && <KeyChoice on={keyed} onChange={setKeyed} />}
    </div>
  )
}

interface KeyProperties {
  readonly on: boolean
  readonly onChange: (on: boolean) => void
}

/** Whether a key switches. */
function KeyChoice({ on, onChange }: KeyProperties) {
  return (
    <label class="switch hear-key">
      <input
        type="checkbox"
        checked={on}
        onChange={event => {
          onChange(event.currentTarget.checked)
          keepKeyOn(event.currentTarget.checked)
        }}
      />
      <span>{say('hear-key')}</span>
    </label>
  )
}

/** Before the first sound. */
function Caution() {
  return (
    <ul class="mind hear-caution" data-caution role="list" aria-label={say('caution')}>
      <li>
        <strong>{say('hear-caution-phones')}</strong>
      </li>
      <li>{say('hear-caution-low')}</li>
      <li>{say(isTouched() ? 'hear-caution-ears-touch' : 'hear-caution-ears')}</li>
    </ul>
  )
}
