// In the one file the script of the page is packed too, which takes half the room.
// This runs it, and is built for older browsers than the rest.

import { runPart } from './base/part'

runPart('main-script').catch((error: unknown) => {
  // As a script that is cut short: the page tells what to do.
  setTimeout(() => {
    throw new SyntaxError(String(error))
  })
})
