import { useLayoutEffect, useRef } from 'preact/hooks'
import type { LessonKey, Marked, Settings } from '../../generated/contract'
import { say } from '../base/words'
import type { Texts } from '../screen/link'
import { DEFAULTS } from '../screen/settings'
import { useStore } from '../screen/store'
import { plotOf, readingOf, translateWanted, wholeOf } from './bench'
import { bound } from './bound'
import { decadeText } from './decades'
import { earKey, earText } from './ear-words'
import { MarkedRows } from './marked-rows'
import { hasNoAnswer, pointsText } from './points'
import { Said } from './said'
import { ShownPlot } from './shown-plot'
import type { Asked } from './step'
import { costOf, hasCost, partName, takenOf } from './target'
import { toldIn } from './told-in'

type Properties = Asked & { readonly marked: Marked }

/** What was right, what the response is worth, and why. */
export function Judged(asked: Properties) {
  const { state, at, step, bench, marked, response } = asked
  const settings = useStore(state => state.settings)
  const heading = useRef<HTMLHeadingElement>(null)
  // What had the focus went with the input. A step that is opened again has it on its own heading.
  useLayoutEffect(() => {
    if (document.activeElement !== document.body) return
    heading.current?.focus({ preventScroll: true })
    const { top = 0, bottom = 0 } = heading.current?.getBoundingClientRect() ?? {}
    // Above or below what is seen nobody would know that there is a verdict.
    if (top < 0 || bottom > innerHeight) heading.current?.scrollIntoView({ block: 'start', behavior: 'instant' })
  }, [])
  const plot = marked.plot ?? (step.plot === '' ? undefined : plotOf(bench, step.plot))
  const whole = wholeOf(state, at, changed(asked, marked.key))
  return (
    <div class="lesson-judged" data-verdict={verdictOf(marked, response.hints)}>
      <h3 ref={heading} tabIndex={-1}>
        {verdictText(marked, response.hints, settings)}
      </h3>
      <Beside {...asked} />
      <MarkedRows {...asked} />
      <ul class="lesson-findings">
        {marked.findings.map(({ id, text }) => (
          <li key={id} data-finding={id}>
            {text}
          </li>
        ))}
      </ul>
      {plot !== undefined && <ShownPlot plot={plot} />}
      {step.because !== '' && (
        <div class="lesson-text lesson-because">
          <h4>{say('lesson-because')}</h4>
          <div lang={toldIn(state, step, ({ because }) => because)}>
            <Said text={step.because} />
          </div>
        </div>
      )}
      {whole !== null && (
        <p class="lesson-whole">
          <a class="chip" href={whole}>
            {say('lesson-try-on')}
          </a>
        </p>
      )}
    </div>
  )
}

/** What was right beside what was said. */
function Beside(asked: Properties) {
  const settings = useStore(state => state.settings)
  const { sure } = asked.response
  const rows = [
    { id: 'key', name: say('lesson-right-is'), text: keyOf(asked, asked.marked.key) },
    { id: 'said', name: say('lesson-you-said'), text: saidOf(asked, settings) },
    { id: 'sure', name: say('lesson-sure-was'), text: sure === null ? '' : say(`lesson-sure-${sure}`) },
  ]
  return (
    <dl class="lesson-given">
      {rows
        .filter(({ text }) => text !== '')
        .map(({ id, name, text }) => (
          <div key={id} data-row={id}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
    </dl>
  )
}

function verdictOf({ before_hints, points, of, key }: Marked, hints: number): string {
  if (hasNoAnswer(key)) return 'lesson-verdict-out'
  if (before_hints >= 0.999) return hints > 0 ? 'lesson-verdict-hints' : 'lesson-verdict-right'
  // Not called partly right where no point is told.
  if (Math.round(10 * (of > 0 ? points : before_hints)) === 0) return 'lesson-verdict-none'
  return 'lesson-verdict-part'
}

/** The verdict, the points, and how many of them the hints took. */
function verdictText(marked: Marked, hints: number, settings: Settings): string {
  const verdict = say(verdictOf(marked, hints))
  if (hasNoAnswer(marked.key)) return verdict
  const { points, of, before_hints, share } = marked
  const taken = pointsText((before_hints - share) * of, settings)
  return [
    verdict,
    say('lesson-points-are', { points: pointsText(points, settings), of: pointsText(of, settings) }),
    ...(taken === '0' ? [] : [say('lesson-hints-took', { points: taken })]),
  ].join(' ')
}

/** Between parts that go together. */
const PLUS = ' + '

/** What was answered, in words; nothing for a curve, which is to be seen, and for an order, which stands below. */
function saidOf({ state, at, step, bench, response, marked }: Properties, settings: Settings): string {
  switch (step.kind) {
    case 'number':
      return marked.said_text || translateWanted(state, at, response.text, DEFAULTS, settings)
    case 'magnitude': {
      const reading = readingOf(bench, step.reading)
      if (reading === undefined || response.decade === null) return ''
      return decadeText(response.decade, reading, settings)
    }
    case 'target': {
      const taken = takenOf(step.drawer, response.parts).map(part => partName(part, bench))
      const parts = taken.length === 0 ? say('lesson-nothing') : taken.join(PLUS)
      if (!hasCost(step)) return parts
      return `${parts} (${say('lesson-cost', { cost: `${costOf(step.drawer, response.parts)}` })})`
    }
    case 'ear':
      return earText(response)
    case 'fault':
      return bound(step.cases[response.case ?? -1]?.name ?? '')
    default:
      return ''
  }
}

/** What was right, in words: an order stands below, and of parts every set does that meets the limits. */
function keyOf({ step, bench, response }: Asked, key: LessonKey): string {
  if (step.kind === 'choice') return ''
  if (step.kind === 'ear') return earKey(response, key)
  if (step.kind !== 'target') return bound(key.text)
  const parts = takenOf(step.drawer, key.parts).map(part => partName(part, bench))
  return parts.length === 0 ? key.text : say('lesson-one-set', { parts: parts.join(PLUS) })
}

/** What of the rig is other than it was dealt: the parts that do, or what is wrong with it. */
function changed({ step }: Asked, key: LessonKey): Texts {
  if (step.kind === 'target') return key.parts
  return key.case === null ? {} : (step.cases[key.case]?.values ?? {})
}
