import type { LookUpEntry } from '../../generated/contract'
import { entryOf } from '../engine/entries'
import { useStore } from '../screen/store'
import { Term } from '../term/term-name'
import { bound } from './bound'

/** A text of a lesson: paragraphs with what is stressed, and terms that open what they mean. */
export function Said({ text }: { readonly text: string }) {
  const paragraphs = text.split(/\n\s*\n/).filter(paragraph => paragraph.trim() !== '')
  return (
    <>
      {paragraphs.map((paragraph, index) => (
        <p key={index}>
          <SaidInline text={paragraph} />
        </p>
      ))}
    </>
  )
}

/** `*so*` and `[[term]]`, or `[[term|as it reads here]]`. */
const PIECES = /\*([^*\n]+)\*|\[\[([\w-]+)(?:\|([^\]\n]+))?\]\]/g

/** The same within a line. */
export function SaidInline({ text: written }: { readonly text: string }) {
  const settings = useStore(state => state.settings)
  const text = bound(written)
  const pieces = []
  let end = 0
  for (const found of text.matchAll(PIECES)) {
    const [whole, stressed, id = '', words] = found
    pieces.push(text.slice(end, found.index))
    end = found.index + whole.length
    const entry = stressed === undefined ? (entryOf(id, settings) ?? entryOf(`term-${id}`, settings)) : undefined
    if (stressed !== undefined) pieces.push(<strong key={end}>{stressed}</strong>)
    else if (entry === undefined) pieces.push(words ?? id)
    else pieces.push(<Term key={end} words={words ?? named(entry)} entry={entry} />)
  }
  return (
    <>
      {pieces}
      {text.slice(end)}
    </>
  )
}

/** Within a sentence a title begins small, unless it is a name or an abbreviation. */
function named({ title }: LookUpEntry): string {
  return /^\p{Lu}[\p{Ll} -]/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title
}
