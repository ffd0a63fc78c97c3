import type { PresetDescription } from '../generated/contract'
import { lessonOf } from './lesson'
import { isChanged, startAgain, startFrom } from './screen'
import { useStore } from './store'
import { say } from './words'

/** Fillings to start from. */
export function Presets({ presets }: { readonly presets: readonly PresetDescription[] }) {
  const changed = useStore(isChanged)
  const lesson = useStore(state => lessonOf(state) !== null)
  if (presets.length === 0 && !changed) return null
  return (
    <section class="presets" aria-labelledby="presets">
      <h2 id="presets">{say('presets')}</h2>
      <ul class="chips">
        {presets.map(({ id, name, values, held }) => (
          <li key={id}>
            <button type="button" class="chip" data-preset={id} onClick={() => startFrom(values, held)}>
              {name}
            </button>
          </li>
        ))}
        {changed && (
          <li>
            <button type="button" class="chip" onClick={() => startAgain()}>
              {say(lesson ? 'reset-lesson' : 'reset')}
            </button>
          </li>
        )}
      </ul>
    </section>
  )
}
