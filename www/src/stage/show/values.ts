// Texts of a show have a decimal point and metres; a reader reads and writes them under
// settings of their own. What the whole line makes of them is asked beside the typing.

import { useEffect, useRef, useState } from 'preact/hooks'
import type { Echo, Settings } from '../../../generated/contract'
import { whenIdle } from '../../base/idle'
import { answer } from '../../engine/engine'
import { useStore } from '../../screen/store'
import { tidy, translate } from '../../screen/translate'

export type Texts = Readonly<Record<string, string>>
export type Echoes = Readonly<Record<string, Echo>>

export const WHOLE_LINE = 'whole-line'
/** So long nothing is asked while somebody types, in milliseconds. */
const PAUSE = 150

/** A text of a show as the reader reads it. */
export function forReader(texts: Texts, reader: Settings, calculator = WHOLE_LINE): Texts {
  return rewritten(calculator, texts, ofShow(reader), reader)
}

/** What the reader typed, as it stands in a show. */
export function forShow(texts: Texts, reader: Settings, calculator = WHOLE_LINE): Texts {
  return rewritten(calculator, texts, reader, ofShow(reader))
}

function ofShow(reader: Settings): Settings {
  return { ...reader, decimal: 'point', length: 'metre' }
}

function rewritten(calculator: string, texts: Texts, from: Settings, to: Settings): Texts {
  if (from.decimal === to.decimal && from.length === to.length) return texts
  const { texts: written } = translate(calculator, { texts, want: null }, from, to)
  return Object.fromEntries(Object.entries(texts).map(([id, text]) => [id, tidy(written[id] ?? text)]))
}

/** How the whole line understands texts of a show; nothing until it has been asked, or where nothing is. */
export function useEchoes(texts: Texts | null): Echoes | null {
  const settings = useStore(state => state.settings)
  const [known, setKnown] = useState<Echoes | null>(null)
  const first = useRef(true)
  const asked = texts === null ? null : JSON.stringify(texts)
  useEffect(() => {
    if (asked === null) return
    let dropped = false
    const ask = () => dropped || setKnown(understood(JSON.parse(asked) as Texts, settings))
    const timer = first.current ? void whenIdle(ask) : setTimeout(ask, PAUSE)
    first.current = false
    return () => {
      dropped = true
      clearTimeout(timer)
    }
  }, [asked, settings])
  return asked === null ? null : known
}

function understood(texts: Texts, settings: Settings): Echoes {
  return answer({
    calculator: WHOLE_LINE,
    values: { ...forReader(texts, settings) },
    settings,
    working: false,
    brief: true,
    backwards: null,
    cures: false,
    tolerances: null,
  }).fields
}
