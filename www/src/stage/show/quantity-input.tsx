import { useState } from 'preact/hooks'
import type { Echo, Problem } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { TextInput, type Where } from './inputs'
import { forReader, forShow, type Texts } from './values'

/** What a number is read as that is typed without a unit. */
export interface Bare {
  readonly unit: 'V' | 'A' | 'Ω'
  /** Whoever types more than this without a unit is asked whether thousandths are meant. */
  readonly sane: number
}

interface Properties {
  readonly label: string
  /** The field of the whole line by which it is read. */
  readonly field: string
  /** What stands beside it in the show, itself included. */
  readonly texts: Texts
  readonly echo?: Echo | undefined
  readonly where?: Where | undefined
  readonly hint?: string | undefined
  readonly bare?: Bare | undefined
  readonly onText: (text: string) => void
}

/** A quantity of a show, read and written under the reader's settings. */
export function QuantityInput({ label, field, texts, echo, where, hint, bare, onText }: Properties) {
  const settings = useStore(state => state.settings)
  const [typed, setTyped] = useState<{ readonly text: string; readonly stored: string } | null>(null)
  const stored = texts[field] ?? ''
  const put = (text: string) => {
    const stored =
      text === '' ? '' : (forShow({ ...forReader(texts, settings), [field]: text }, settings)[field] ?? text)
    setTyped({ text, stored })
    onText(stored)
  }
  // What is typed stays as it is typed, until something else takes its place.
  const value = typed?.stored === stored ? typed.text : (forReader(texts, settings)[field] ?? '')
  return (
    <TextInput
      label={label}
      value={value}
      numeric
      hint={hint}
      where={where}
      problem={stored === '' ? null : (asked(value, bare, echo) ?? echo?.problem ?? null)}
      onText={put}
    />
  )
}

export function isBare(text: string): boolean {
  return /^\s*[+\-−]?(\d+[.,]?\d*|[.,]\d+)(e[+\-−]?\d+)?\s*$/i.test(text)
}

/** Whether thousandths are meant, where the number alone is hardly so large. */
function asked(text: string, bare: Bare | undefined, echo: Echo | undefined): Problem | null {
  if (bare === undefined || echo === undefined || !isBare(text) || /^\s*[-−]/.test(text)) return null
  const refused = echo.problem !== null
  if ((refused ? Infinity : (echo.value ?? 0)) <= bare.sane) return null
  const [whole, milli] = [`${text.trim()} ${bare.unit}`, `${text.trim()} m${bare.unit}`]
  return {
    message: say(`stage-bare-${bare.unit === 'V' ? 'volts' : 'amperes'}`, { whole, milli }),
    offers: refused ? [milli] : [milli, whole],
  }
}
