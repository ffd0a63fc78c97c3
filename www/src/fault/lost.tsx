import { say } from '../base/words'
import type { Search } from './address'
import { isStep } from './said'

interface Properties {
  /** What the address says, and what of it is known. */
  readonly written: Search
  readonly search: Search
  /** What the core does not know of it. */
  readonly unknown: readonly string[]
}

/** What of a link could not be used, with its text, so that nothing is lost. */
export function Lost({ written, search, unknown }: Properties) {
  const pieces = [
    ...written.spare,
    ...(['symptom', 'scope'] as const).filter(key => written[key] !== search[key]).map(key => written[key]),
    // A step that this line has not got stands among the answers, marked so.
    ...unknown.filter(id => !isStep(id) && isWritten(id, search)),
  ]
  if (pieces.length === 0) return null
  return (
    <div class="notice" role="status">
      <p>{say('fault-lost')}</p>
      <code>{[...new Set(pieces)].join(' ')}</code>
    </div>
  )
}

/** Whether it stands in the address, rather than in what this device counted. */
function isWritten(id: string, { done, times, texts }: Search): boolean {
  return id in texts || id in (times ?? {}) || done.some(({ step, outcome }) => step === id || outcome === id)
}
