import { say } from '../base/words'
import { useStore } from '../screen/store'
import type { HearingWays } from '../engine/hearing'
import { addedTexts, type Added } from './figures'
import type { Rig } from './rigs'

const ADDED: readonly Added[] = ['hum', 'noise', 'clipping']

interface Properties {
  readonly rigs: readonly Rig[]
  readonly ways: HearingWays
  readonly onWays: (ways: HearingWays) => void
}

/** What the rigs add to the signal, each to be left out, with its figures beside it. */
export function Adds({ rigs, ways, onWays }: Properties) {
  const settings = useStore(state => state.settings)
  const added = ADDED.map(what => ({ what, texts: addedTexts(what, rigs, settings) })).filter(
    ({ texts }) => texts.length > 0,
  )
  if (added.length === 0) return null
  return (
    <fieldset class="hear-adds">
      <legend>{say('hear-adds')}</legend>
      {added.map(({ what, texts }) => (
        <label key={what} class="switch" data-added={what}>
          <input
            type="checkbox"
            checked={ways[what]}
            onChange={event => onWays({ ...ways, [what]: event.currentTarget.checked })}
          />
          <span>
            {say(`hear-${what}`)}
            {texts.map(text => (
              <span key={text} class="hint">
                {text}
              </span>
            ))}
            {what === 'hum' && <span class="hint">{say('hear-small', { hz: `${settings.mains}\u00a0Hz` })}</span>}
          </span>
        </label>
      ))}
    </fieldset>
  )
}
