import { say } from '../../base/words'
import type { DraftStep } from '../../screen/lesson-drafts'
import { editStep, keyOf, putRig, useDraft } from './draft'
import { FieldsForm } from './fields-form'
import { Flaws } from './flaws'
import { LongText, NumberInput, Rows, Select, TextInput } from './inputs'
import { EarForm } from './ear-form'
import { ChoiceForm, CurveForm, FaultForm, PlotSelect, ReadingSelect, TargetForm } from './kind-forms'
import { isAsking, KINDS, needsOf } from './kinds'
import { offersOf, type Offers } from './offers'
import { RigForm } from './rig-form'
import { ValuesForm } from './values-form'

/** What the form of a part of a step has to know. */
export interface Formed {
  readonly step: DraftStep
  readonly offers: Offers | null
  readonly put: (part: Partial<DraftStep>, merge?: string | null) => void
}

/** A step, with what its kind asks of its author. */
export function StepForm({ step, at }: { readonly step: DraftStep; readonly at: number }) {
  const rig = useDraft(({ lesson }) => lesson.rig)
  const { kind } = step
  const offers = offersOf(step.rig ?? rig, step.values)
  const put: Formed['put'] = (part, merge = Object.keys(part).join()) => editStep(keyOf(step), part, merge)
  const formed = { step, offers, put }
  const needs = needsOf(kind)
  return (
    <section class="edit-form" aria-labelledby="edit-form">
      <h2 id="edit-form" tabIndex={-1}>
        {say('lesson-edit-step', { step: `${at + 1}` })}
      </h2>
      <Flaws step={at + 1} />
      <Select
        name={say('lesson-edit-kind')}
        value={kind}
        hint={say(KINDS.some(one => one === kind) ? `lesson-kind-${kind}-hint` : 'lesson-edit-kind-unknown')}
        among={KINDS.map(id => ({ id, name: say(`lesson-kind-${id}`) }))}
        onChange={kind => put({ kind }, null)}
      />
      <TextInput name={say('lesson-edit-title')} value={step.title ?? ''} onChange={title => put({ title })} />
      <LongText
        name={say('lesson-edit-text')}
        hint={say('lesson-edit-text-hint')}
        value={step.text ?? ''}
        onChange={text => put({ text })}
      />
      {needs.reading && <ReadingSelect {...formed} none={kind === 'read'} />}
      {needs.plot && <PlotSelect {...formed} none={kind !== 'curve'} />}
      {needs.credit && <Credit {...formed} />}
      {kind === 'curve' && <CurveForm {...formed} />}
      {kind === 'choice' && <ChoiceForm {...formed} />}
      {kind === 'target' && <TargetForm {...formed} />}
      {kind === 'fault' && <FaultForm {...formed} />}
      {kind === 'ear' && <EarForm {...formed} />}
      <FieldsForm {...formed} />
      {isAsking(kind) && <Answered {...formed} />}
      <LongText name={say('lesson-edit-note')} value={step.note ?? ''} onChange={note => put({ note })} />
      <OwnRig {...formed} at={at} />
    </section>
  )
}

/** What a step has in its rig instead of what the lesson has. */
function OwnRig({ step, offers, put, at }: Formed & { readonly at: number }) {
  const lesson = useDraft(({ lesson }) => lesson)
  return (
    <details class="edit-fold">
      <summary>
        {say('lesson-edit-own')} <span class="hint">{offers?.description.title ?? ''}</span>
      </summary>
      <div class="edit-group">
        <ValuesForm
          name={say('lesson-edit-own-values')}
          hint={say('lesson-edit-own-hint')}
          offers={offers}
          values={step.values ?? {}}
          onChange={(values, merge) => put({ values }, merge)}
        />
        {step.rig ? (
          <>
            <RigForm
              rig={step.rig}
              step={at}
              onChange={(rig, merge) => (merge === undefined ? putRig(at, rig) : put({ rig }, merge))}
            />
            <button type="button" class="chip" onClick={() => put({ rig: undefined, values: undefined }, null)}>
              {say('lesson-edit-own-none')}
            </button>
          </>
        ) : (
          lesson.rig !== undefined && (
            <button type="button" class="chip" onClick={() => put({ rig: lesson.rig }, null)}>
              {say('lesson-edit-own-rig')}
            </button>
          )
        )}
      </div>
    </details>
  )
}

/** How far off is how good. */
function Credit({ step, put }: Formed) {
  return (
    <div class="edit-row">
      <TextInput
        name={say('lesson-edit-good')}
        hint={say('lesson-edit-good-hint')}
        value={step.good ?? ''}
        onChange={good => put({ good })}
      />
      <TextInput name={say('lesson-edit-none')} value={step.none ?? ''} onChange={none => put({ none })} />
    </div>
  )
}

/** What there is around an answer: points, hints, and why it is so. */
function Answered({ step, put }: Formed) {
  return (
    <>
      <NumberInput
        name={say('lesson-points')}
        value={step.points ?? 0}
        onChange={points => put({ points: points ?? 0 })}
      />
      <Rows
        name={say('lesson-edit-hints')}
        rows={step.hints ?? []}
        empty=""
        add={say('lesson-edit-hint-add')}
        onChange={(hints, merge) => put({ hints }, merge)}
        row={(hint, putHint, place) => (
          <LongText name={say('lesson-hint', { number: `${place + 1}` })} value={hint} onChange={putHint} />
        )}
      />
      <LongText
        name={say('lesson-edit-because')}
        hint={say('lesson-edit-because-hint')}
        value={step.because ?? ''}
        onChange={because => put({ because })}
      />
    </>
  )
}
