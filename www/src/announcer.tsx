import { useEffect, useRef, useState } from 'preact/hooks'
import { subjectOf } from './screen/subject'
import { shownDescription } from './screen/descriptions'
import { embedOf, getState, useStore } from './screen/store'

/** The pause after which a changed answer is read out. */
const PAUSE = 800

/** Reads out the answer, or what stands in its way, once the input rests. */
export function Announcer() {
  const answer = useStore(state => state.answer)
  const place = useStore(shownDescription)
  const [text, setText] = useState('')
  const opened = useRef(place)
  useEffect(() => {
    // What stands on a screen when it opens is read in its place.
    if (opened.current !== place || answer === null) {
      // And what was said of another one is not true of it.
      setText('')
      if (answer !== null) opened.current = place
      return
    }
    const timer = setTimeout(() => {
      const problem = place?.fields.find(({ id }) => answer.fields[id]?.problem)
      const subject = place && answer.report && subjectOf(place, answer.report, embedOf(getState()))
      const [first] = answer.report?.headline ?? []
      if (problem !== undefined) setText(`${problem.name}: ${answer.fields[problem.id]?.problem?.message}`)
      else if (first !== undefined)
        setText(`${subject ?? first.name}: ${first.text}${first.verdict ? `; ${first.verdict.text}` : ''}`)
    }, PAUSE)
    return () => clearTimeout(timer)
  }, [answer, place])
  return (
    <p class="unseen" role="status">
      {text}
    </p>
  )
}
