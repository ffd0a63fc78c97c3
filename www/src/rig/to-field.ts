// From a part of the picture to where it is set.

/** Focuses the first of these fields that is asked; without one, the ways among which it was chosen. */
export function toField(ids: readonly string[]): void {
  const fields = ids.map(id => document.querySelector(`[data-field="${CSS.escape(id)}"]`))
  const field = fields.find(field => field !== null)
  if (field === undefined || field === null) {
    const ways = document.querySelector<HTMLElement>('.ranking h2')
    ways?.setAttribute('tabindex', '-1')
    ways?.focus()
    return
  }
  const folded = field.closest('details')
  if (folded !== null) folded.open = true
  field.scrollIntoView({ block: 'center' })
  const inputs = [...field.querySelectorAll<HTMLElement>('input, select, .locked')]
  const chosen = inputs.find(input => input.matches(':checked')) ?? inputs[0]
  chosen?.focus({ preventScroll: true })
}
