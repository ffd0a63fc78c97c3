/**
 * Whether the page around this one may keep it from saving, opening and printing:
 * it stands in a frame without an origin of its own. Which of them it forbids
 * cannot be asked, and what is forbidden just does not happen.
 */
export function isSandboxed(): boolean {
  return window.parent !== window && self.origin === 'null'
}
