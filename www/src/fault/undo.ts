import { go, present } from './search-state'
import { takeReplaced } from './switch-symptom'

/** Takes back the last thing that was said. */
export function undo(): void {
  const search = present()
  const { now, done, scope, symptom } = search
  if (now !== '') return go({ now: '' })
  const before = takeReplaced(search)
  if (before !== null) go(before)
  else if (done.length > 0) go({ done: done.slice(0, -1) })
  else if (scope !== '') go({ scope: '' })
  else if (symptom !== '') go({ symptom: '' })
}
