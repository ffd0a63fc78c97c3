import { useState } from 'preact/hooks'
import type { RefObject } from 'preact'
import { constants, type NumberDescription } from '../../generated/contract'
import { memo } from '../base/memo'
import { putText } from '../screen/screen'
import { takesPrefix } from '../base/unit'
import { say } from '../base/words'

const MINUS = '−'
/** The smallest prefix where a range begins at nothing. */
const PICO = 1e-12

interface Properties {
  readonly input: RefObject<HTMLInputElement | null>
  readonly field: string
  readonly number: NumberDescription
}

/**
 * What the number pad of a phone does not have: the prefixes of units, the
 * sign, and the way to the letters. Shown while the field is typed into by thumb.
 */
export const ThumbKeys = memo(({ input, field, number }: Properties) => {
  const [letters, setLetters] = useState(false)
  const { usual_from, usual_to } = number
  const isLarge = (size: number) => (usual_from > 0 ? size * 1000 > usual_from : size >= PICO)
  const prefixes = takesPrefix(number.unit)
    ? constants.prefixes.filter(({ size }) => isLarge(size) && size <= 10 * usual_to)
    : []
  const change = (text: (typed: string) => string) => () => putText(field, text(input.current?.value ?? ''))
  const turn = () => {
    setLetters(!letters)
    if (input.current === null) return
    // The keyboard changes where it is asked for anew.
    const { selectionStart, selectionEnd } = input.current
    input.current.inputMode = letters ? 'decimal' : 'text'
    input.current.blur()
    input.current.focus()
    input.current.setSelectionRange(selectionStart, selectionEnd)
  }
  return (
    <div class="thumb-keys" role="group" aria-label={say('thumb-keys')}>
      {number.least < 0 && (
        <Key name={say('thumb-keys-sign')} onPress={change(typed => withSign(typed))}>
          ±
        </Key>
      )}
      {prefixes.map(({ symbol }) => (
        <Key key={symbol} name={symbol} onPress={change(typed => withPrefix(typed, symbol))}>
          {symbol}
        </Key>
      ))}
      <Key name={say(letters ? 'thumb-keys-digits' : 'thumb-keys-letters')} onPress={turn}>
        {letters ? '123' : 'abc'}
      </Key>
    </div>
  )
})

interface KeyProperties {
  readonly name: string
  readonly onPress: () => void
  readonly children: string
}

function Key({ name, onPress, children }: KeyProperties) {
  return (
    <button
      type="button"
      tabIndex={-1}
      aria-label={name}
      // The keyboard of the phone stays open.
      onPointerDown={event => event.preventDefault()}
      onClick={onPress}
    >
      {children}
    </button>
  )
}

/** The new prefix takes the place of the old one, inside `4k7` too, and of its unit. */
function withPrefix(typed: string, prefix: string): string {
  // A level has no prefix.
  if (!/\d/.test(typed) || /dB/i.test(typed)) return typed
  const inside = /(\d)\s*[fpnuµμmkKMGR](?=\d)/
  return inside.test(typed) ? typed.replace(inside, `$1${prefix}`) : `${typed.replace(/[^\d.,]+$/, '')}${prefix}`
}

/** The number with the other sign. */
function withSign(typed: string): string {
  const [, sign = '', rest = typed] = /^\s*([-−+]?)(.*)$/s.exec(typed) ?? []
  return sign === '' || sign === '+' ? `${MINUS}${rest}` : rest
}
