// Reading what a browser wrote down about its main thread.

export const categories = ['devtools.timeline', 'disabled-by-default-devtools.timeline']

/**
 * For each input event: how long the main thread computed from then until the
 * frame that shows the answer was handed on, in ms. Handlers, the engine,
 * drawing, styles, layout and paint are in it; waiting is not.
 */
export function workPerInput({ traceEvents }) {
  const isInput = ({ name, args }) => name === 'EventDispatch' && args.data.type === 'input'
  const first = traceEvents.find(isInput)
  const events = traceEvents
    .filter(({ ph, pid, tid }) => ph === 'X' && pid === first?.pid && tid === first?.tid)
    .sort((a, b) => a.ts - b.ts)
  const tasks = events.filter(({ name }) => name === 'RunTask')
  const works = []
  let input = null
  let drawn = false
  for (const event of events) {
    if (isInput(event)) {
      input = event
      drawn = false
    } else if (event.name === 'FireAnimationFrame') drawn = input !== null
    else if (event.name === 'Commit' && drawn) {
      // On the thread's own clock, which stands while the thread does.
      const within = tasks.filter(({ ts, dur }) => ts + dur > input.ts && ts <= event.ts)
      const parts = within.map(({ tts, tdur }) => tts + tdur - Math.max(tts, input.tts))
      works.push(parts.reduce((sum, part) => sum + part, 0) / 1000)
      input = null
      drawn = false
    }
  }
  return works
}
