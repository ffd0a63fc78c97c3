import type { LessonKey, LessonStep, Plot, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { benchOf, plotOf, readingOf, type Bench } from '../bench'
import { axesOf } from '../drawn-curve'
import { quantityText } from '../decades'
import { asks } from '../lesson-state'
import { pointsText } from '../points'
import { Said } from '../said'
import { Paged } from './paged'
import type { Prepared } from './prepared'
import { PlotOnPaper } from './shown-on-paper'
import { Working } from './working'
import { pointsOf } from './worksheet'

interface Properties {
  readonly sheet: Prepared
  /** Whether it says how the numbers are found. */
  readonly working: boolean
}

/** What is right on one worksheet, how it is found and what to say to it, for the trainer. */
export function AnswerSheet({ sheet, working }: Properties) {
  const settings = useStore(state => state.settings)
  const { state, checks } = sheet
  const { lesson } = state
  return (
    <Paged
      state={state}
      foot={say('lesson-for-trainer')}
      head={
        <>
          <p class="lesson-for-trainer">{say('lesson-for-trainer')}</p>
          <h2>{lesson.title}</h2>
          <p>{say('lesson-sheet-worth', { points: pointsText(pointsOf(lesson.steps), settings) })}</p>
          <Note text={lesson.note} />
        </>
      }
    >
      {lesson.steps.map((step, at) => (
        <Step key={at} sheet={sheet} at={at} step={step} check={checks?.[at]} working={working} />
      ))}
    </Paged>
  )
}

interface StepProperties extends Properties {
  readonly at: number
  readonly step: LessonStep
  readonly check: StepCheck | undefined
}

function Step({ sheet: { state }, at, step, check, working }: StepProperties) {
  const settings = useStore(state => state.settings)
  const bench = benchOf(state, at, settings)
  const isAsked = asks(step)
  const key = check?.key ?? null
  const plot = isAsked ? keyPlot(step, bench) : undefined
  return (
    <section class="lesson-sheet-step" data-step={at + 1} data-kind={step.kind}>
      <h3>
        {`${at + 1}. ${step.title}`}
        {isAsked && (
          <span class="hint">{say('lesson-sheet-worth', { points: pointsText(step.points, settings) })}</span>
        )}
      </h3>
      {isAsked && <KeyText step={step} bench={bench} keyOf={key} />}
      {check?.doubt && <p class="lesson-doubt">{say(`lesson-doubt-${check.doubt}`)}</p>}
      {plot !== undefined && <PlotOnPaper plot={plot} id={`answers-${state.seed}-${at}`} />}
      {working && key !== null && <Working state={state} at={at} />}
      {step.because !== '' && (
        <div class="lesson-text">
          <Said text={step.because} />
        </div>
      )}
      <Note text={step.note} />
    </section>
  )
}

interface KeyProperties {
  readonly step: LessonStep
  readonly bench: Bench | null
  readonly keyOf: LessonKey | null
}

/** Kinds that ask for a reading or a plot. */
const ASKED = ['number', 'magnitude', 'curve']

/** What is right, in words and with its bounds. */
export function KeyText({ step, bench, keyOf: key }: KeyProperties) {
  const settings = useStore(state => state.settings)
  if (key === null) return <p class="lesson-key">{say('lesson-no-key')}</p>
  const asked = readingOf(bench, step.reading)?.name ?? plotOf(bench, step.plot)?.title ?? ''
  const reading = readingOf(bench, step.reading)
  const [from, to] = (key.full ?? []).map(value => reading && quantityText(value, reading, settings))
  return (
    <p class="lesson-key">
      {ASKED.includes(step.kind) && asked !== '' && `${asked}: `}
      {key.text !== '' && (
        <strong>{step.kind === 'target' ? say('lesson-key-parts', { parts: key.text }) : key.text}</strong>
      )}{' '}
      {from !== undefined && to !== undefined && say('lesson-full-credit', { from, to })}
      {step.kind === 'curve' && step.good !== '' && say('lesson-curve-credit', { good: step.good })}
    </p>
  )
}

/** The curve that is asked for, on the axes that learners draw on. */
export function keyPlot(step: LessonStep, bench: Bench | null): Plot | undefined {
  const plot = step.kind === 'curve' || step.plot !== '' ? plotOf(bench, step.plot) : undefined
  if (plot === undefined || step.kind !== 'curve') return step.kind === 'fault' ? undefined : plot
  const { x, y } = axesOf(plot, step)
  const isInside = (at: number) => at >= x.from && at <= x.to
  const traces = plot.traces.map(trace => {
    const kept = trace.x.flatMap((at, index) => (isInside(at) ? [index] : []))
    return { ...trace, x: kept.map(index => trace.x[index] ?? 0), y: kept.map(index => trace.y[index] ?? 0) }
  })
  return { ...plot, x, y, bands: [], markers: plot.markers.filter(marker => isInside(marker.x)), traces }
}

function Note({ text }: { readonly text: string }) {
  if (text === '') return null
  return (
    <div class="lesson-note">
      <p class="hint">{say('lesson-note')}</p>
      <Said text={text} />
    </div>
  )
}
