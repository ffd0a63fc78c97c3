/** Calls it once the page has nothing better to do. */
export function whenIdle(done: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(done)
  else setTimeout(done, 500)
}
