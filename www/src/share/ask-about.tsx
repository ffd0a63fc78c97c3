import { useState } from 'preact/hooks'
import type { LessonRig, Plot } from '../../generated/contract'
import { visible } from '../base/visible'
import { say } from '../base/words'
import { answer } from '../engine/engine'
import { shownDescription } from '../screen/descriptions'
import { drafts, editorAt, keepDraft, newLesson, withStep, written, type DraftStep } from '../screen/lesson-drafts'
import { embedOf, getState, useStore } from '../screen/store'
import { tidy, translate } from '../screen/translate'
import { givenByDefault, questionOf } from './told-by-default'

/** The calculator on the screen with a value for every field, as a lesson writes them. */
export function shownRig(): LessonRig | null {
  const { place, good, settings } = getState()
  if (place.kind !== 'calculator' || good === null) return null
  const { calculator } = place.filling
  const { mains } = settings
  const all = Object.entries(good.fields).map(([id, { text }]) => [id, tidy(text)])
  const { texts } = translate(calculator, { texts: Object.fromEntries(all), want: null }, settings, written(mains))
  // A text may have the other sign all the same: printed again, it has a point.
  const asked = { calculator, values: { ...texts }, settings: written(mains), working: false, brief: true }
  const { fields } = answer({ ...asked, backwards: null, cures: false, tolerances: null })
  const printed = Object.entries(fields).map(([id, { text }]) => [id, tidy(text)])
  return { calculator, mains, values: { ...texts, ...Object.fromEntries(printed) } }
}

interface Added {
  readonly step: number
  readonly title: string
  /** Whether the browser keeps it. */
  readonly kept: boolean
}

function addStep(step: DraftStep): Added | null {
  const rig = shownRig()
  if (rig === null) return null
  const [draft = { lesson: newLesson(), saved: '' }] = drafts()
  const given = givenByDefault(rig, step)
  const asked = { ...step, text: questionOf(step) }
  const lesson = withStep(draft.lesson, rig, given.length === 0 ? asked : { ...asked, given })
  const kept = keepDraft({ ...draft, lesson })
  return { step: lesson.steps.length, title: visible(lesson.title ?? ''), kept }
}

interface Properties {
  /** What is asked, but for its rig. */
  readonly step: () => DraftStep
  /** What it is about, where that is not plain. */
  readonly about?: string
}

/** Adds a step about this to the lesson that is being written. */
export function AskAbout({ step, about }: Properties) {
  const inLesson = useStore(state => embedOf(state) !== null)
  const [added, setAdded] = useState<Added | null>(null)
  if (inLesson) return null
  return (
    <>
      <button
        type="button"
        class="chip"
        aria-label={about === undefined ? undefined : say('ask-about-what', { what: about })}
        onClick={() => setAdded(addStep(step()))}
      >
        {say('ask-about')}
      </button>
      <span role="status">
        {added !== null && (
          <>
            {say(added.title === '' ? 'ask-added' : 'ask-added-to', { step: `${added.step}`, title: added.title })}{' '}
            <a href={editorAt(added.step)}>{say('ask-edit')}</a>
            {!added.kept && <span class="note">{say('ask-not-kept')}</span>}
          </>
        )}
      </span>
    </>
  )
}

/** All that can be asked about an answer, one of which is chosen. */
export function AskAboutAll() {
  const good = useStore(state => state.good)
  const [chosen, choose] = useState(0)
  if (good === null) return null
  const { headline, further, plots, ranking } = good.report
  const description = shownDescription(getState())
  const askable: DraftStep[] = [
    ...[...headline, ...further].filter(({ value }) => value !== null).map(askNumber),
    ...plots.filter(isDrawable).map(askCurve),
    ...(ranking.length < 2 ? [] : [askOrder(description?.title ?? '')]),
  ]
  const at = Math.min(chosen, askable.length - 1)
  if (at < 0) return null
  return (
    <section class="share ask-about" aria-labelledby="ask-about">
      <h2 id="ask-about">{say('ask-about')}</h2>
      <div class="tools">
        <label>
          <span class="unseen">{say('ask-what')}</span>
          <select value={`${at}`} onChange={event => choose(Number(event.currentTarget.value))}>
            {askable.map(({ kind, title }, index) => (
              <option key={`${kind} ${title}`} value={`${index}`}>
                {say(`ask-${kind}`, { what: title ?? '' })}
              </option>
            ))}
          </select>
        </label>
        <AskAbout step={() => askable[at] ?? { kind: 'read' }} about={askable[at]?.title ?? ''} />
      </div>
    </section>
  )
}

export function askNumber({ id, name }: { readonly id: string; readonly name: string }): DraftStep {
  return { kind: 'number', title: name, reading: id, points: 2 }
}

export function askCurve({ id, title }: { readonly id: string; readonly title: string }): DraftStep {
  return { kind: 'curve', title, plot: id, points: 3 }
}

/** Whether a learner can draw it: over frequency, in one line. */
export function isDrawable({ x }: Plot): boolean {
  return x.log && !x.discrete
}

function askOrder(title: string): DraftStep {
  return { kind: 'choice', title, points: 2 }
}
