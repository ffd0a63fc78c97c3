import type { Because } from '../../generated/contract'
import { memo } from '../base/memo'

interface Properties {
  readonly mathml: string
  /** The same as plain text. */
  readonly text: string
  readonly inline?: boolean
}

/** A formula of the engine, set as mathematics. */
export function Formula({ mathml, text, inline = false }: Properties) {
  const display = inline ? 'inline' : 'block'
  return <math display={display} {...{ alttext: text }} dangerouslySetInnerHTML={{ __html: mathml }} />
}

/** Why a reading is what it is, in a line with its simple formula. */
export const BecauseView = memo(({ because: { text, formula, formula_mathml } }: { readonly because: Because }) => (
  <span class="because">
    {text}:{' '}
    <span class="unbroken">
      <Formula mathml={formula_mathml} text={formula} inline />
    </span>
  </span>
))
