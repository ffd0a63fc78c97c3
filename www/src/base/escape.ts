/** Closes what is open where the key is pressed; not what a text is put together with. */
export function onEscape(close: () => void): (event: KeyboardEvent) => void {
  return event => {
    if (event.key !== 'Escape' || event.isComposing || event.defaultPrevented) return
    event.preventDefault()
    close()
  }
}
