/** Takes the key that closes what is open, and answers whether it was that; not what a text is put together with. */
export function takeEscape(event: KeyboardEvent): boolean {
  if (event.key !== 'Escape' || event.isComposing || event.defaultPrevented) return false
  event.preventDefault()
  return true
}
