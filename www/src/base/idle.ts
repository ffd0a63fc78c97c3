/** Nothing waits longer than this: a browser may never call a page idle. */
const LONGEST = 500

/** Calls it once the page has nothing better to do. */
export function whenIdle(done: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(done, { timeout: LONGEST })
  else setTimeout(done, LONGEST)
}
