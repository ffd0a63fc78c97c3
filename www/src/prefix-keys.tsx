import type { RefObject } from 'preact'
import type { NumberDescription } from '../generated/contract'
import { memo } from './memo'
import { putText } from './screen'
import { printing } from './unit'
import { DEFAULTS } from './settings'
import { say } from './words'

const PREFIXES = [
  ['p', 1e-12],
  ['n', 1e-9],
  ['µ', 1e-6],
  ['m', 1e-3],
  ['k', 1e3],
  ['M', 1e6],
] as const

interface Properties {
  readonly input: RefObject<HTMLInputElement | null>
  readonly field: string
  readonly number: NumberDescription
}

/**
 * The letters behind a number that a phone hides behind two more keyboards.
 * Shown while the field is typed into by thumb.
 */
export const PrefixKeys = memo(({ input, field, number }: Properties) => {
  const { ticks } = printing(number.unit, '', DEFAULTS)
  const keys =
    ticks === '~s' ? PREFIXES.filter(([, size]) => size * 1000 > number.usual_from && size <= 10 * number.usual_to) : []
  if (keys.length === 0) return null
  return (
    <div class="prefixes" role="group" aria-label={say('prefixes')}>
      {keys.map(([prefix]) => (
        <button
          key={prefix}
          type="button"
          tabIndex={-1}
          // The keyboard of the phone stays open.
          onPointerDown={event => event.preventDefault()}
          onClick={() => {
            const typed = input.current?.value ?? ''
            // The new prefix takes the place of the old one and of its unit.
            putText(field, `${typed.replace(/[^\d.,]+$/, '')}${prefix}`)
          }}
        >
          {prefix}
        </button>
      ))}
    </div>
  )
})
