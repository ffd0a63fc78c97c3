// Reading what a browser wrote down about its main thread.

export const categories = ['devtools.timeline', 'disabled-by-default-devtools.timeline']

/**
 * For each event of a type, an input unless told, what the main thread computed, in ms: `first` until the frame
 * was handed on that shows what is read first, `all` until the next input. Handlers,
 * the engine, drawing, styles, layout and paint are in it; waiting is not.
 */
export function workPerInput({ traceEvents }, type = 'input') {
  const isInput = ({ name, args }) => name === 'EventDispatch' && args.data.type === type
  const found = traceEvents.find(isInput)
  const events = traceEvents
    .filter(({ ph, pid, tid }) => ph === 'X' && pid === found?.pid && tid === found?.tid)
    .sort((a, b) => a.ts - b.ts)
  const tasks = events.filter(({ name }) => name === 'RunTask')
  const inputs = events.filter(isInput)
  // After the last one there is no next.
  return inputs.slice(0, -1).flatMap((input, index) => {
    const next = inputs[index + 1]
    const frame = events.find(({ name, ts }) => name === 'FireAnimationFrame' && ts >= input.ts)
    const shown = frame && events.find(({ name, ts }) => name === 'Commit' && ts >= frame.ts)
    // Several inputs before one frame are one.
    if (shown === undefined || shown.ts > next.ts) return []
    return [{ first: workBetween(tasks, input, shown, true), all: workBetween(tasks, input, next, false) }]
  })
}

/** From one event on to another, or to the end of the task that it is in, by the thread's own clock, which stands while the thread does. */
function workBetween(tasks, from, to, whole) {
  const within = tasks.filter(({ ts, dur }) => ts + dur > from.ts && ts <= to.ts)
  const parts = within.map(({ ts, dur, tts, tdur }) => {
    const end = !whole && ts + dur > to.ts ? to.tts : tts + tdur
    return end - Math.max(tts, from.tts)
  })
  return parts.reduce((sum, part) => sum + part, 0) / 1000
}
