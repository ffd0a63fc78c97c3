import { isSandboxed } from '../base/sandbox'

/** Asks the browser to print; false where the page around this one does not allow it. */
export function printOut(): boolean {
  let began = false
  const begin = () => (began = true)
  addEventListener('beforeprint', begin, { once: true })
  print()
  removeEventListener('beforeprint', begin)
  return began || !isSandboxed()
}
