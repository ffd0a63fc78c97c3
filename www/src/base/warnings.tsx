import { say } from './words'

interface Properties {
  readonly texts: readonly string[]
}

interface Folding extends Properties {
  readonly open: boolean
}

/** Where the first sentence of a text ends. */
export function firstEnd(text: string): number {
  return text.indexOf('. ') + 1 || text.length
}

/** What can go wrong. */
export function Warnings({ texts }: Properties) {
  return texts.map(text => (
    <p key={text} class="mind" data-warning>
      <strong>{say('warning')}</strong> {text}
    </p>
  ))
}

/** What can hurt someone. */
export function Cautions({ texts }: Properties) {
  if (texts.length === 0) return null
  return (
    <div class="cautions">
      {texts.map(text => (
        <p key={text} class="mind" data-caution>
          <strong>{say('caution')}</strong> {text}
        </p>
      ))}
    </div>
  )
}

/** The same in one line each, the first sentence, that unfolds. */
export function FoldedCautions({ texts, open }: Folding) {
  if (texts.length === 0) return null
  return (
    <div class="cautions">
      {texts.map(text => {
        const end = firstEnd(text)
        return (
          <details key={text} class="mind" data-caution open={open}>
            <summary>
              <strong>{say('caution')}</strong> {text.slice(0, end)}
            </summary>
            {text.slice(end)}
          </details>
        )
      })}
    </div>
  )
}
