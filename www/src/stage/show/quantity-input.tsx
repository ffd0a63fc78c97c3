import { useState } from 'preact/hooks'
import type { Echo } from '../../../generated/contract'
import { useStore } from '../../screen/store'
import { TextInput, type Where } from './inputs'
import { forReader, forShow, type Texts } from './values'

interface Properties {
  readonly label: string
  /** The field of the whole line by which it is read. */
  readonly field: string
  /** What stands beside it in the show, itself included. */
  readonly texts: Texts
  readonly echo?: Echo | undefined
  readonly where?: Where | undefined
  readonly hint?: string | undefined
  readonly onText: (text: string) => void
}

/** A quantity of a show, read and written under the reader's settings. */
export function QuantityInput({ label, field, texts, echo, where, hint, onText }: Properties) {
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
      problem={stored === '' ? null : (echo?.problem ?? null)}
      onText={put}
    />
  )
}
