/** Once what was drawn is seen: the engine then has the page to itself for a moment. */
export function painted(): Promise<void> {
  return new Promise(done => requestAnimationFrame(() => setTimeout(done)))
}
