import type { FunctionComponent } from 'preact'
import type { DealtStep, LessonResponse, LessonStep } from '../../generated/contract'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import { benchOf, plotOf, readingOf, type Bench } from './bench'
import { ChoiceAnswer } from './choice'
import { Commit } from './commit'
import { CurveAnswer } from './curve'
import { EarAnswer } from './ear'
import { FaultAnswer } from './fault'
import { Given } from './given'
import { Hints } from './hints'
import { Judged } from './judged'
import { asks, NO_RESPONSE, type LessonState } from './lesson-state'
import { MagnitudeAnswer } from './magnitude'
import { NumberAnswer } from './number'
import { RigPicture } from './rig-picture'
import { Said } from './said'
import { ShownPlot } from './shown-plot'
import { TargetAnswer } from './target'
import { stepTitle } from './title'
import { titledIn, toldIn } from './told-in'

/** What an input of a step has to know. */
export interface Asked {
  readonly state: LessonState
  readonly at: number
  readonly step: LessonStep
  readonly dealt: DealtStep
  readonly bench: Bench | null
  readonly response: LessonResponse
}

const ANSWERS: Readonly<Record<string, FunctionComponent<Asked>>> = {
  number: NumberAnswer,
  magnitude: MagnitudeAnswer,
  curve: CurveAnswer,
  target: TargetAnswer,
  fault: FaultAnswer,
  choice: ChoiceAnswer,
  ear: EarAnswer,
}

interface Properties {
  readonly state: LessonState
  readonly at: number
}

/** A step: what it says, what it asks, and once that is committed what was right. */
export function StepView({ state, at }: Properties) {
  const settings = useStore(state => state.settings)
  const step = state.lesson.steps[at]
  const dealt = state.dealt.steps[at]
  const bench = benchOf(state, at, settings)
  if (step === undefined || dealt === undefined) return null
  const response = state.responses[at] ?? NO_RESPONSE
  const marked = state.marked[at] ?? null
  const asked = { state, at, step, dealt, bench, response }
  const Answer = ANSWERS[step.kind]
  return (
    <section class="lesson-step" data-kind={step.kind} data-committed={marked !== null} aria-labelledby="lesson-step">
      <h2 id="lesson-step" tabIndex={-1} data-focus dir="auto" lang={titledIn(state, step)}>
        {stepTitle(step, at)}
      </h2>
      <div class="lesson-text" lang={toldIn(state, step, ({ text }) => text)}>
        <Said text={step.text} />
      </div>
      {step.given.length > 0 && <Given step={step} bench={bench} />}
      {!asks(step) ? (
        step.kind === 'read' ? (
          <Shown {...asked} />
        ) : (
          <p class="lesson-unknown">{say('lesson-unknown-kind')}</p>
        )
      ) : marked !== null ? (
        <Judged {...asked} marked={marked} />
      ) : (
        Answer !== undefined && (
          <div class="lesson-answer">
            <Answer {...asked} />
            <Commit {...asked}>
              <Hints
                hints={step.hints}
                langs={step.hints.map((_, place) => toldIn(state, step, ({ hints }) => hints[place]))}
                opened={response.hints}
              />
            </Commit>
          </div>
        )
      )}
      <RigPicture bench={bench} given={step.given} />
    </section>
  )
}

/** What a step that asks nothing shows of its rig. */
function Shown({ step, bench }: Asked) {
  const reading = step.reading === '' ? undefined : readingOf(bench, step.reading)
  const plot = step.plot === '' ? undefined : plotOf(bench, step.plot)
  return (
    <>
      {reading !== undefined && (
        <p class="lesson-reading">
          {reading.name}: <strong>{reading.text}</strong>
        </p>
      )}
      {plot !== undefined && <ShownPlot plot={plot} />}
    </>
  )
}
