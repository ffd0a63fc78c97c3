import type { PresetDescription } from '../generated/contract'
import { startAgain, startFrom } from './screen'
import { useStore } from './store'
import { say } from './words'

/** Fillings to start from. */
export function Presets({ presets }: { readonly presets: readonly PresetDescription[] }) {
  const changed = useStore(({ place }) => place.kind === 'calculator' && Object.keys(place.filling.current).length > 0)
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
              {say('reset')}
            </button>
          </li>
        )}
      </ul>
    </section>
  )
}
