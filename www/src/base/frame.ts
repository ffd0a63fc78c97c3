/** Once what was drawn is on the screen; a page in the background has no frames to wait for. */
export function afterFrame(): Promise<void> {
  return new Promise(done => {
    if (document.visibilityState === 'visible') requestAnimationFrame(() => setTimeout(done))
    else setTimeout(done)
  })
}
