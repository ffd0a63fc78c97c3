import { render, type ComponentChild } from 'preact'

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

/** Prints this in place of the screen; false where the page around this one does not allow it. */
export function printOn(content: ComponentChild): boolean {
  const paper = document.createElement('div')
  paper.id = 'paper'
  render(content, paper)
  document.body.append(paper)
  const done = () => {
    render(null, paper)
    paper.remove()
  }
  addEventListener('afterprint', done, { once: true })
  const asked = printOut()
  if (!asked) done()
  return asked
}
