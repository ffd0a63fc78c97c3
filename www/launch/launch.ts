// The page that a learning system starts. It holds the system's own interface, which the
// sandboxed lesson inside it cannot reach, and passes on what is said.

import type { Begun, LearningSystem } from './learning-system'
import { VERSION, isReadable, type Attempt, type FromLesson, type ToLesson } from './messages'

/** Joins the lesson in the frame of this page to a learning system. */
export function launch(system: LearningSystem): void {
  const frame = document.querySelector('iframe')
  const notice = document.querySelector('p')
  if (frame === null || notice === null) return
  let begun: Begun | null = null
  /** What came last is what counts; nothing overtakes what is on its way. */
  let next: Attempt | null = null
  let busy = false
  const say = (message: ToLesson) => frame.contentWindow?.postMessage(message, '*')
  const told = (error: unknown) => {
    notice.hidden = false
    notice.textContent = `${notice.dataset['unreached'] ?? ''} ${reason(error)}`.trim()
  }
  const keep = async () => {
    if (busy) return
    busy = true
    while (next !== null) {
      const attempt = next
      next = null
      let why = ''
      try {
        if (begun?.counts === true) await system.keep(attempt)
      } catch (error) {
        why = reason(error)
      }
      say({ type: 'stageohm:launch', version: VERSION, what: 'kept', taken: why === '', why })
    }
    busy = false
  }
  addEventListener('message', ({ source, data }: MessageEvent<FromLesson>) => {
    if (source !== frame.contentWindow || !isReadable(data, 'stageohm:lesson')) return
    if (data.what === 'ready') void begin()
    else {
      next = data.attempt
      void keep()
    }
  })
  const begin = async () => {
    if (begun === null) {
      try {
        begun = await system.begin()
      } catch (error) {
        // The lesson goes on without it; its result can be saved as a file.
        begun = { kept: '', counts: false, name: '' }
        told(error)
      }
    }
    say({ type: 'stageohm:launch', version: VERSION, what: 'begin', ...begun })
  }
  addEventListener('pagehide', () => system.end())
  // Some systems end a page without hiding it first.
  addEventListener('beforeunload', () => system.end())
  frame.src = frame.dataset['src'] ?? ''
}

function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
