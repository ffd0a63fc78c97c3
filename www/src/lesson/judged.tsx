import { useLayoutEffect, useRef } from 'preact/hooks'
import type { LessonKey, Marked } from '../../generated/contract'
import { say } from '../base/words'
import type { Texts } from '../screen/link'
import { DEFAULTS } from '../screen/settings'
import { useStore } from '../screen/store'
import { plotOf, readingOf, translateWanted, wholeOf } from './bench'
import { costOf, partName, takenOf } from './target'
import { decadeText } from './decades'
import { pointsText } from './points'
import { Said } from './said'
import { ShownPlot } from './shown-plot'
import type { Asked } from './step'

type Properties = Asked & { readonly marked: Marked }

/** What was right, what the response is worth, and why. */
export function Judged(asked: Properties) {
  const { state, at, step, bench, marked, response } = asked
  const settings = useStore(state => state.settings)
  const heading = useRef<HTMLHeadingElement>(null)
  // What had the focus went with the input. A step that is opened again has it on its own heading.
  useLayoutEffect(() => {
    if (document.activeElement === document.body) heading.current?.focus({ preventScroll: true })
  }, [])
  const plot = marked.plot ?? (step.plot === '' ? undefined : plotOf(bench, step.plot))
  const whole = wholeOf(state, at, changed(asked, marked.key))
  return (
    <div class="lesson-judged" data-verdict={verdictOf(marked, response.hints)}>
      <h3 ref={heading} tabIndex={-1}>
        {say(verdictOf(marked, response.hints))}{' '}
        {say('lesson-points-are', {
          points: pointsText(marked.points, settings),
          of: pointsText(marked.of, settings),
        })}
      </h3>
      <Beside {...asked} />
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
          <Said text={step.because} />
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

function verdictOf({ share, points, of }: Marked, hints: number): string {
  if (share >= 0.999) return 'lesson-verdict-right'
  // Not called partly right where no point is told.
  if (Math.round(10 * (of > 0 ? points : share)) === 0) return 'lesson-verdict-none'
  return hints > 0 ? 'lesson-verdict-hints' : 'lesson-verdict-part'
}

/** What was answered, in words; nothing for a curve, which is to be seen. */
function saidOf({ state, at, step, dealt, bench, response }: Asked, settings: typeof DEFAULTS): string {
  switch (step.kind) {
    case 'number':
      return translateWanted(state, at, response.text, DEFAULTS, settings)
    case 'magnitude': {
      const reading = readingOf(bench, step.reading)
      if (reading === undefined || response.decade === null) return ''
      return decadeText(response.decade, reading, settings)
    }
    case 'target': {
      const taken = takenOf(step.drawer, response.parts).map(part => partName(part, bench))
      const parts = taken.length === 0 ? say('lesson-nothing') : taken.join(', ')
      return `${parts} (${say('lesson-cost', { cost: `${costOf(step.drawer, response.parts)}` })})`
    }
    case 'fault':
      return step.cases[response.case ?? -1]?.name ?? ''
    case 'choice':
      return response.order.map(id => dealt.ways.find(way => way.id === id)?.name ?? id).join(' → ')
    default:
      return ''
  }
}

/** What was right, in words: a curve is to be seen, and of parts every set does that meets the limits. */
function keyOf({ step }: Asked, key: LessonKey): string {
  if (step.kind === 'curve') return ''
  return step.kind === 'target' ? say('lesson-one-set', { parts: key.text }) : key.text
}

/** What of the rig is other than it was dealt: the parts that do, or what is wrong with it. */
function changed({ step }: Asked, key: LessonKey): Texts {
  if (step.kind === 'target') return key.parts
  return key.case === null ? {} : (step.cases[key.case]?.values ?? {})
}
