import { useState } from 'preact/hooks'
import type { LessonRig } from '../../../generated/contract'
import { choices, Segments } from '../../base/segments'
import { visible } from '../../base/visible'
import { toldOfCalculators, say } from '../../base/words'
import { written } from '../../screen/lesson-drafts'
import { fresh, readPlace, writePlace } from '../../screen/link'
import { wantRig } from '../../screen/rig-wanted'
import { DEFAULTS } from '../../screen/settings'
import { translate } from '../../screen/translate'
import { getDraft } from './draft'
import { Select, TextInput } from './inputs'
import { offersOf, pinned } from './offers'
import { ValueInput } from './values-form'

interface Properties {
  readonly rig: LessonRig | null | undefined
  /** The step that it is of; nothing for the lesson. */
  readonly step: number | null
  readonly onChange: (rig: LessonRig, merge?: string) => void
}

/** A calculator with a value for every field. */
export function RigForm({ rig, step, onChange }: Properties) {
  const offers = offersOf(rig)
  const told = toldOfCalculators().map(({ id, title }) => ({ id, name: title }))
  const mains = rig?.mains ?? DEFAULTS.mains
  return (
    <div class="edit-group">
      <Select
        name={say('lesson-edit-calculator')}
        value={rig?.calculator ?? ''}
        among={told}
        onChange={calculator => onChange(pinned(calculator, mains))}
      />
      {rig && offers !== null && (
        <>
          <div class="tools">
            <a
              class="chip"
              href={writePlace(fresh(rig.calculator, differing(rig)), written(rig.mains))}
              onClick={() => look(step)}
            >
              {say('lesson-edit-open-values')}
            </a>
          </div>
          <details class="edit-fold">
            <summary>
              {say('lesson-edit-values')}{' '}
              <span class="hint">
                {say('lesson-edit-values-count', { count: `${Object.keys(rig.values).length}` })}
              </span>
            </summary>
            <p class="hint">{say('lesson-edit-values-hint')}</p>
            <Segments
              name="edit-mains"
              legend={say('lesson-edit-mains')}
              options={choices('mains', ['50', '60'])}
              value={rig.mains}
              onChoose={mains => onChange({ ...rig, mains })}
            />
            <div class="edit-values">
              {offers.description.fields.map(field => (
                <ValueInput
                  key={field.id}
                  field={field}
                  name={field.name}
                  value={rig.values[field.id] ?? offers.values[field.id] ?? ''}
                  onChange={text =>
                    onChange({ ...rig, values: { ...rig.values, [field.id]: text } }, `value ${field.id}`)
                  }
                />
              ))}
            </div>
          </details>
        </>
      )}
      <FromLink onChange={onChange} />
    </div>
  )
}

/** What of a rig is not as the calculator begins. */
function differing({ calculator, mains, values }: LessonRig) {
  const blank = pinned(calculator, mains).values
  return Object.fromEntries(Object.entries(values).filter(([id, text]) => text !== blank[id]))
}

function look(step: number | null): void {
  const { lesson } = getDraft()
  const title = visible(lesson.title ?? '') || say('lesson-edit-untitled')
  const of =
    step === null
      ? say('lesson-edit-rig-of', { title })
      : say('lesson-edit-rig-of-step', { step: `${step + 1}`, title })
  const words = { of, take: say('lesson-edit-take'), back: say('lesson-edit-leave') }
  wantRig({ lesson: lesson.id, step, words, taken: null })
}

/** The rig of a link to a calculator. */
function FromLink({ onChange }: Pick<Properties, 'onChange'>) {
  const [link, setLink] = useState('')
  const [wrong, setWrong] = useState(false)
  const take = () => {
    const rig = rigOfLink(link)
    setWrong(rig === null)
    if (rig === null) return
    setLink('')
    onChange(rig)
  }
  return (
    <details class="edit-fold">
      <summary>{say('lesson-edit-from-link')}</summary>
      <div class="edit-row">
        <TextInput name={say('lesson-edit-link-here')} value={link} onChange={setLink} />
        <button type="button" class="chip" onClick={take}>
          {say('lesson-edit-take-link')}
        </button>
      </div>
      <p role="alert" class="problem">
        {wrong && say('lesson-edit-no-link')}
      </p>
    </details>
  )
}

/** The calculator of a link with every value; nothing where it is no such link. */
export function rigOfLink(link: string): LessonRig | null {
  const hash = link.slice(Math.max(0, link.indexOf('#')))
  const place = readPlace(hash.trim())
  if (place.kind !== 'calculator') return null
  const { calculator, current } = place.filling
  const settings = place.settings ?? DEFAULTS
  const { texts } = translate(calculator, { texts: current, want: null }, settings, written(settings.mains))
  const rig = pinned(calculator, settings.mains, texts)
  return offersOf(rig) === null ? null : rig
}
