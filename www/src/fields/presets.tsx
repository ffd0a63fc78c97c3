import type { PresetDescription } from '../../generated/contract'
import { startAgain, startFrom } from '../screen/screen'
import { isChanged } from '../screen/shown'
import { embedOf, useStore } from '../screen/store'
import { say } from '../base/words'

interface Properties {
  readonly presets: readonly PresetDescription[]
  /** Whether no field can be changed. */
  readonly fixed: boolean
}

/** Fillings to start from, and the way back to where it began. */
export function Presets({ presets, fixed }: Properties) {
  const changed = useStore(isChanged)
  const embed = useStore(state => embedOf(state) !== null)
  if (presets.length === 0 && fixed && !changed) return null
  return (
    <section class="presets" aria-labelledby={presets.length > 0 ? 'presets' : undefined}>
      {presets.length > 0 && <h2 id="presets">{say('presets')}</h2>}
      <ul class="chips">
        {presets.map(({ id, name, values, held }) => (
          <li key={id}>
            <button type="button" class="chip" data-preset={id} onClick={() => startFrom(values, held)}>
              {name}
            </button>
          </li>
        ))}
        {/* Always there, or all below would move with the first change. */}
        <li>
          <button type="button" class="chip" disabled={!changed} onClick={() => startAgain()}>
            {say(embed ? 'reset-lesson' : 'reset')}
          </button>
        </li>
      </ul>
    </section>
  )
}
