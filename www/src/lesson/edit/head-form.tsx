import { say, toldOfLanguages } from '../../base/words'
import { DrawForm } from './draw-form'
import { editHead, useDraft } from './draft'
import { Flaws } from './flaws'
import { LongText, NumberInput, Select, TextInput } from './inputs'
import { RigForm } from './rig-form'

/** What a lesson says of itself, and the rig that its steps start from. */
export function HeadForm() {
  const lesson = useDraft(({ lesson }) => lesson)
  return (
    <section class="edit-form" aria-labelledby="edit-form">
      <h2 id="edit-form" tabIndex={-1}>
        {say('lesson-edit-head')}
      </h2>
      <Flaws />
      <TextInput
        name={say('lesson-edit-lesson-title')}
        value={lesson.title ?? ''}
        onChange={title => editHead({ title }, 'title')}
      />
      <Select
        name={say('lesson-edit-language')}
        hint={say('lesson-edit-language-hint')}
        value={lesson.language ?? ''}
        among={toldOfLanguages().map(([id, name]) => ({ id, name }))}
        onChange={language => editHead({ language })}
      />
      <div class="edit-row">
        <TextInput name={say('lesson-edit-by')} value={lesson.by ?? ''} onChange={by => editHead({ by }, 'by')} />
        <TextInput
          name={say('lesson-edit-licence')}
          value={lesson.licence ?? ''}
          onChange={licence => editHead({ licence }, 'licence')}
        />
      </div>
      <div class="edit-row">
        <NumberInput
          name={say('lesson-edit-minutes')}
          value={lesson.minutes}
          onChange={minutes => editHead({ minutes: minutes ?? 0 }, 'minutes')}
        />
        <NumberInput
          name={say('lesson-edit-pass')}
          value={percentOf(lesson.pass)}
          onChange={pass => editHead({ pass: shareOf(pass) }, 'pass')}
        />
      </div>
      <LongText
        name={say('lesson-edit-note')}
        value={lesson.note ?? ''}
        onChange={note => editHead({ note }, 'note')}
      />
      <h3>{say('lesson-edit-rig')}</h3>
      <p class="hint">{say('lesson-edit-rig-hint')}</p>
      <RigForm rig={lesson.rig} step={null} onChange={(rig, merge) => editHead({ rig }, merge ?? null)} />
      <details class="edit-fold">
        <summary>
          {say('lesson-edit-draw')}{' '}
          <span class="hint">{say('lesson-edit-chosen', { count: `${Object.keys(lesson.draw ?? {}).length}` })}</span>
        </summary>
        <DrawForm />
      </details>
    </section>
  )
}

function percentOf(share: number | string | undefined): number | string {
  return typeof share === 'number' ? Math.round(share * 1e6) / 1e4 : (share ?? '')
}

function shareOf(percent: number | string | null | undefined): number | string {
  return typeof percent === 'number' ? Math.round(percent * 1e4) / 1e6 : (percent ?? '')
}
