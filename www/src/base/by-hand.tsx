import { say } from './words'

/** A text that is to be copied by hand, since the browser does not do it. */
export function ByHand({ text, why = say('copy-by-hand') }: { readonly text: string; readonly why?: string }) {
  return (
    <label class="by-hand">
      <span>{why}</span>
      <textarea readOnly rows={3} value={text} onFocus={event => event.currentTarget.select()} />
    </label>
  )
}
