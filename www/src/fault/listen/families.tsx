import type { Heard } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { useLatest, type Latest } from './latest'
import { fixed } from './told'

/** How well each family of sounds goes with what is heard. */
export function Families({ sound }: { readonly sound: Latest<Heard | null> }) {
  const families = useLatest(sound)?.families ?? []
  const settings = useStore(state => state.settings)
  if (families.length === 0) return null
  return (
    <section class="listen-families" aria-labelledby="listen-families">
      <h2 id="listen-families">{say('fault-listen-families')}</h2>
      <ul role="list">
        {[...families]
          .sort((a, b) => b.likelihood - a.likelihood)
          .map(({ family, likelihood }, place) => (
            <li key={family} data-family={family}>
              <span>{say(`fault-listen-family-${family}`)}</span>
              <span>
                {place === 0
                  ? say('fault-listen-families-best')
                  : likelihood < 0.01
                    ? `<\u202f${fixed(0.01, 2, settings)}`
                    : fixed(likelihood, 2, settings)}
              </span>
              <span class="listen-bar" aria-hidden="true">
                <span style={{ inlineSize: `${Math.round(100 * likelihood)}%` }} />
              </span>
            </li>
          ))}
      </ul>
    </section>
  )
}
