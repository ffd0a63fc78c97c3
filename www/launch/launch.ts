// The page that a learning system starts. It holds the system's own interface, which the
// sandboxed lesson inside it cannot reach, and passes on what is said.

import { Keeper } from './keeper'
import type { Begun, LearningSystem } from './learning-system'
import { VERSION, isReadable, type Attempt, type FromLesson, type ToLesson } from './messages'
import { reason } from './reason'
import { waits } from './waits'

/** Joins the lesson in the frame of this page to a learning system. */
export function launch(system: LearningSystem): void {
  const frame = document.querySelector('iframe')
  const notice = document.querySelector('p')
  if (frame === null || notice === null) return
  let begun: Begun | null = null
  let why: string | null = null
  const wait = waits()
  const say = (message: ToLesson) => frame.contentWindow?.postMessage(message, '*')
  /** Says where it stands: begun, not reached, or nothing yet. */
  const answer = () => {
    notice.hidden = begun !== null || why === null
    notice.textContent = notice.hidden ? '' : `${notice.dataset['unreached'] ?? ''} ${why}`.trim()
    if (begun !== null)
      say({ type: 'stageohm:launch', version: VERSION, what: 'begin', ...begun, wayBack: begun.wayBack !== '' })
    else if (why !== null) say({ type: 'stageohm:launch', version: VERSION, what: 'unreached' })
  }
  const begin = async () => {
    try {
      begun = await system.begin()
    } catch (error) {
      // The lesson goes on without it meanwhile; its result can be saved as a file.
      why = reason(error)
      setTimeout(() => void begin(), wait())
    }
    answer()
  }
  const keeper = new Keeper(system, say)
  const keep = (attempt: Attempt) => {
    if (begun === null || !begun.counts) return
    // Where the lesson in the frame is loaded again it goes on from there.
    begun = { ...begun, kept: attempt.kept, finished: attempt.done }
    void keeper.keep(attempt)
  }
  const end = () => system.end().catch(() => undefined)
  const leave = async () => {
    if (begun === null || begun.wayBack === '') return
    await keeper.all()
    await end()
    location.assign(begun.wayBack)
  }
  let isReady = false
  addEventListener('message', ({ source, data }: MessageEvent<FromLesson>) => {
    if (source !== frame.contentWindow || !isReadable(data, 'stageohm:lesson')) return
    if (data.what === 'leave') void leave()
    else if (data.what === 'attempt') keep(data.attempt)
    else if (isReady) answer()
    else {
      isReady = true
      void begin()
    }
  })
  addEventListener('pagehide', () => void end())
  // Some systems end a page without hiding it first.
  addEventListener('beforeunload', () => void end())
  frame.src = frame.dataset['src'] ?? ''
}
