import { useEffect, useState } from 'preact/hooks'
import type { EarEye, LessonStep, Measured, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { useStore } from '../../screen/store'
import { benchOf, plotOf, readingOf, type Bench } from '../bench'
import { useEye } from '../ear-eye'
import { Given } from '../given'
import { asks, type LessonState } from '../lesson-state'
import { prepare, type Prepared } from '../paper/prepared'
import { EmptyAxes } from '../paper/empty-axes'
import { PaperRig } from '../paper/paper-rig'
import { Measurements, Offered, SilentHere, ToldRigs, Wanted } from '../paper/question'
import { keyPlot, KeyText } from '../paper/answer-sheet'
import { Said } from '../said'
import { ShownPlot } from '../shown-plot'
import { stepTitle } from '../title'
import { titledIn, toldIn } from '../told-in'
import type { Uncovered } from './uncovered'
import { useFit } from './use-fit'

interface Properties {
  readonly state: LessonState
  readonly at: number
  readonly uncovered: Uncovered
  readonly measured: readonly Measured[]
}

/** One step on a wall: what is asked beside what there is to choose from, and then what is right. */
export function Slide({ state, at, uncovered, measured }: Properties) {
  const settings = useStore(state => state.settings)
  const step = state.lesson.steps[at]
  const bench = benchOf(state, at, settings)
  const eye = useEye(state, at)
  const fit = useFit(`${at} ${uncovered}`)
  if (step === undefined) return null
  const reading = asks(step) || step.reading === '' ? undefined : readingOf(bench, step.reading)
  const plot = asks(step) ? keyPlot(step, bench) : plotOf(bench, step.plot)
  const isPictured = plot !== undefined || step.kind === 'ear'
  return (
    <section
      ref={fit}
      class="lesson-slide"
      data-kind={step.kind}
      data-uncovered={uncovered}
      aria-labelledby="lesson-slide"
    >
      <div class="lesson-slide-asked">
        <h2 id="lesson-slide" tabIndex={-1} lang={titledIn(state, step)}>
          {stepTitle(step, at)}
        </h2>
        <SilentHere step={step} />
        <div class="lesson-text" lang={toldIn(state, step, ({ text }) => text)}>
          <Said text={step.text} />
        </div>
        {step.given.length > 0 && <Given step={step} bench={bench} />}
        {reading !== undefined && (
          <p class="lesson-reading">
            {reading.name}: <strong>{reading.text}</strong>
          </p>
        )}
        {step.kind !== 'target' && <Wanted step={step} bench={bench} />}
        {/* Beside a plot there is more room for words than below it. */}
        {uncovered === 'answer' && isPictured && <Because state={state} step={step} />}
      </div>
      <div class="lesson-slide-shown" aria-live="polite">
        {step.kind === 'target' && <Wanted step={step} bench={bench} />}
        {uncovered === 'answer' ? (
          <>
            <Key state={state} at={at} eye={eye} />
            {step.kind === 'fault' && <Measurements measured={measured} isMeasured />}
            {plot !== undefined && <ShownPlot key={plot.id} plot={plot} />}
            {!isPictured && <Because state={state} step={step} />}
          </>
        ) : (
          <Choices {...{ state, at, step, bench, measured, eye, uncovered }} />
        )}
      </div>
    </section>
  )
}

interface HalfProperties extends Omit<Properties, 'uncovered'> {
  readonly step: LessonStep
  readonly bench: Bench | null
  readonly eye: EarEye | null
}

/** What a class has to choose from or to draw on, and the picture of the rig. */
function Choices({ state, at, step, bench, measured, eye, uncovered }: HalfProperties & Pick<Properties, 'uncovered'>) {
  const dealt = state.dealt.steps[at]
  const plot = asks(step) ? undefined : plotOf(bench, step.plot)
  if (dealt === undefined) return null
  return (
    <>
      <Offered {...{ step, dealt, bench, measured, eye }} isMeasured={uncovered !== 'nothing'} />
      {step.kind === 'choice' && (
        <ul class="lesson-slide-ways">
          {dealt.ways.map(({ id, name }) => (
            <li key={id}>{name}</li>
          ))}
        </ul>
      )}
      {plot !== undefined && <ShownPlot key={plot.id} plot={plot} />}
      {step.kind === 'curve' && <EmptyAxes step={step} bench={bench} />}
      <PaperRig bench={bench} given={step.given} />
    </>
  )
}

/** Why it is so. */
function Because({ state, step }: Pick<HalfProperties, 'state' | 'step'>) {
  const { because } = step
  if (because === '') return null
  return (
    <div class="lesson-text lesson-because">
      <h3>{say('lesson-because')}</h3>
      <div lang={toldIn(state, step, ({ because }) => because)}>
        <Said text={because} />
      </div>
    </div>
  )
}

interface KeyProperties extends Pick<Properties, 'state' | 'at'> {
  /** Two rigs that are told by what is right; nothing where only words are wanted. */
  readonly eye?: EarEye | null
}

/** What is right, which is not asked for before it is revealed. */
export function Key({ state, at, eye = null }: KeyProperties) {
  const settings = useStore(state => state.settings)
  const checks = useChecks(state)
  const step = state.lesson.steps[at]
  if (step === undefined || !asks(step)) return null
  const key = checks?.[at]?.key ?? null
  return (
    <>
      {checks !== null && <KeyText step={step} bench={benchOf(state, at, settings)} keyOf={key} />}
      {eye !== null && <ToldRigs step={step} eye={eye} seen={key?.seen ?? null} />}
    </>
  )
}

/** What is right for each step; nothing until it is worked out. */
function useChecks({ lesson, seed }: LessonState): readonly StepCheck[] | null {
  const settings = useStore(state => state.settings)
  const [checks, setChecks] = useState<readonly StepCheck[] | null>(null)
  useEffect(() => {
    let isNewest = true
    // Where it cannot be worked out, nothing is shown.
    askStage('lesson_check', lesson, seed, settings).then(
      checks => isNewest && setChecks(checks),
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [lesson, seed, settings])
  return checks
}

/** By step what the measurements of the open lesson read; nothing until they are made. */
export function useMeasurements(state: LessonState): Prepared['measured'] {
  const settings = useStore(state => state.settings)
  const [measured, setMeasured] = useState<Prepared['measured']>([])
  const { what, lesson, own, flaws, seed } = state
  useEffect(() => {
    let isNewest = true
    setMeasured([])
    prepare({ what, lesson, own, flaws }, seed, settings, false).then(
      ({ measured }) => isNewest && setMeasured(measured),
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [what, lesson, own, flaws, seed, settings])
  return measured
}
