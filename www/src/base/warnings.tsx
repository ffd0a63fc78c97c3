import { say } from './words'

interface Properties {
  readonly texts: readonly string[]
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
  return texts.map(text => (
    <p key={text} class="mind caution" data-caution>
      <strong>{say('caution')}</strong> {text}
    </p>
  ))
}
