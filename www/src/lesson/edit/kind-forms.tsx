import type { Best } from '../../../generated/contract'
import { choices, Segments } from '../../base/segments'
import { say } from '../../base/words'
import { isDrawable } from '../../share/ask-about'
import { Checks, NumberInput, Rows, Select, TextInput } from './inputs'
import type { Formed } from './step-form'
import { ValueInput, ValuesForm } from './values-form'

/** A number, or what was typed in its place: reading the lesson tells that it is none. */
const asNumber = (value: unknown) => value as number

/** The readings of the rig that are numbers, with what they are now. */
export function numbersOf({ offers }: Pick<Formed, 'offers'>) {
  return (offers?.readings ?? [])
    .filter(({ value }) => value !== null)
    .map(({ id, name, text }) => ({ id, name: `${name}: ${text}` }))
}

export function ReadingSelect({ step, offers, put, none }: Formed & { readonly none: boolean }) {
  return (
    <Select
      name={say(none ? 'lesson-edit-reading-shown' : 'lesson-edit-reading')}
      value={step.reading ?? ''}
      among={numbersOf({ offers })}
      {...(none ? { none: say('lesson-nothing') } : {})}
      onChange={reading => put({ reading }, null)}
    />
  )
}

export function PlotSelect({ step, offers, put, none }: Formed & { readonly none: boolean }) {
  const plots = (offers?.plots ?? []).filter(plot => none || isDrawable(plot))
  const plot = plots.find(({ id }) => id === step.plot)
  return (
    <div class="edit-row">
      <Select
        name={say(none ? 'lesson-edit-plot-shown' : 'lesson-edit-plot')}
        value={step.plot ?? ''}
        among={plots.map(({ id, title }) => ({ id, name: title }))}
        {...(none ? { none: say('lesson-nothing') } : {})}
        onChange={plot => put({ plot, trace: '' }, null)}
      />
      {!none && plot !== undefined && plot.traces.length > 1 && (
        <Select
          name={say('lesson-edit-trace')}
          value={step.trace ?? ''}
          none={say('lesson-edit-trace-first')}
          among={plot.traces}
          onChange={trace => put({ trace }, null)}
        />
      )}
    </div>
  )
}

export function CurveForm({ step, put }: Formed) {
  return (
    <div class="edit-row">
      <TextInput
        name={say('lesson-edit-from')}
        hint={say('lesson-edit-band-hint')}
        value={step.from ?? ''}
        onChange={from => put({ from })}
      />
      <TextInput name={say('lesson-edit-to')} value={step.to ?? ''} onChange={to => put({ to })} />
    </div>
  )
}

export function ChoiceForm(formed: Formed) {
  const { step, offers, put } = formed
  const ways = step.ways ?? []
  const ranked = offers?.ranking ?? []
  return (
    <>
      {ways.length === 0 && ranked.length > 1 && (
        <p class="hint">{say('lesson-edit-ranked', { ways: ranked.map(({ name }) => name).join(', ') })}</p>
      )}
      <Rows
        name={say('lesson-edit-ways')}
        rows={ways}
        empty={{ name: '', values: {} }}
        add={say('lesson-edit-way-add')}
        onChange={(ways, merge) => put({ ways }, merge)}
        row={(way, putWay) => <Named one={way} put={putWay} offers={offers} name={say('lesson-edit-way-name')} />}
      />
      {ways.length > 0 && (
        <>
          <ReadingSelect {...formed} none={false} />
          <Segments
            name="edit-best"
            legend={say('lesson-edit-best')}
            options={choices('lesson-edit-best', ['least', 'most'])}
            value={step.best ?? 'least'}
            onChoose={(best: Best) => put({ best }, null)}
          />
        </>
      )}
    </>
  )
}

interface NamedValues {
  readonly name: string
  readonly values: Record<string, string>
}

interface NamedProperties extends Pick<Formed, 'offers'> {
  readonly one: NamedValues
  readonly put: (one: NamedValues) => void
  readonly name: string
}

/** Values of the rig under a name. */
export function Named({ one, put, offers, name }: NamedProperties) {
  const values = one.values ?? {}
  return (
    <div class="edit-named">
      <TextInput name={name} value={one.name ?? ''} onChange={name => put({ ...one, name })} />
      <ValuesForm
        name={say('lesson-edit-then', { name: one.name ?? '' })}
        offers={offers}
        values={values}
        onChange={values => put({ ...one, values })}
      />
    </div>
  )
}

export function TargetForm(formed: Formed) {
  const { step, put } = formed
  return (
    <>
      <Limits {...formed} />
      <Drawer {...formed} />
      <NumberInput
        name={say('lesson-edit-budget')}
        hint={say('lesson-edit-budget-hint')}
        value={step.budget}
        onChange={budget => put({ budget })}
      />
    </>
  )
}

function Limits({ step, offers, put }: Formed) {
  return (
    <Rows
      name={say('lesson-limits')}
      rows={step.limits ?? []}
      empty={{ reading: '', least: '', most: '' }}
      add={say('lesson-edit-limit-add')}
      onChange={(limits, merge) => put({ limits }, merge)}
      row={(limit, putLimit) => (
        <>
          <Select
            name={say('lesson-measure-reading')}
            value={limit.reading ?? ''}
            among={numbersOf({ offers })}
            onChange={reading => putLimit({ ...limit, reading })}
          />
          {(['least', 'most'] as const).map(end => (
            <TextInput
              key={end}
              name={say(`lesson-edit-${end}`)}
              value={limit[end] ?? ''}
              onChange={text => putLimit({ ...limit, [end]: text })}
            />
          ))}
        </>
      )}
    />
  )
}

function Drawer({ step, offers, put }: Formed) {
  const fields = offers?.description.fields ?? []
  return (
    <Rows
      name={say('lesson-edit-drawer')}
      rows={step.drawer ?? []}
      empty={{ name: '', field: '', value: '', cost: 0 }}
      add={say('lesson-edit-part-add')}
      onChange={(drawer, merge) => put({ drawer }, merge)}
      row={(part, putPart) => (
        <>
          <TextInput
            name={say('lesson-edit-part-name')}
            value={part.name ?? ''}
            onChange={name => putPart({ ...part, name })}
          />
          <Select
            name={say('lesson-edit-part-field')}
            value={part.field ?? ''}
            among={fields}
            onChange={field => putPart({ ...part, field, value: offers?.values[field] ?? '' })}
          />
          <ValueInput
            field={fields.find(({ id }) => id === part.field)}
            name={say('lesson-edit-part-value')}
            value={part.value ?? ''}
            onChange={value => putPart({ ...part, value })}
          />
          <NumberInput
            name={say('lesson-edit-part-cost')}
            value={part.cost ?? 0}
            onChange={cost => putPart({ ...part, cost: asNumber(cost) })}
          />
        </>
      )}
    />
  )
}

export function FaultForm({ step, offers, put }: Formed) {
  return (
    <>
      <Rows
        name={say('lesson-edit-cases')}
        rows={step.cases ?? []}
        empty={{ name: '', values: {} }}
        add={say('lesson-edit-case-add')}
        onChange={(cases, merge) => put({ cases }, merge)}
        row={(one, putCase) => <Named one={one} put={putCase} offers={offers} name={say('lesson-edit-case-name')} />}
      />
      <Checks
        name={say('lesson-measures')}
        among={numbersOf({ offers })}
        chosen={step.measures ?? []}
        onChange={measures => put({ measures }, null)}
      />
    </>
  )
}
