/** What leads on to other buttons in the same place. */
const LEADS_ON = '[data-symptom], [data-scope], [data-outcome], [data-line], [data-other]'

/** The second tap of a double one was meant for what stood there before: it does nothing. */
export function dropSecondTap(event: MouseEvent): void {
  if (event.detail < 2 || !(event.target instanceof Element) || event.target.closest(LEADS_ON) === null) return
  event.preventDefault()
  event.stopPropagation()
}
