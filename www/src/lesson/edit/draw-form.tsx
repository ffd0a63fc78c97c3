import type { DrawRange, SeriesName } from '../../../generated/contract'
import { say } from '../../base/words'
import { editHead, useDraft } from './draft'
import { LongText, Select, TextInput } from './inputs'
import { offersOf } from './offers'
import { without } from './values-form'

const SERIES: readonly SeriesName[] = ['E12', 'E24', 'E96']
const NEW: DrawRange = { of: [], from: '', to: '', series: 'E12' }

/** What a seed deals, by field. */
export function DrawForm() {
  const lesson = useDraft(({ lesson }) => lesson)
  const draw = lesson.draw ?? {}
  // A step with a rig of its own is dealt fields of that one, too.
  const offers = [lesson.rig, ...lesson.steps.map(({ rig }) => rig)]
    .map(rig => offersOf(rig))
    .filter(one => one !== null)
  const all = offers.flatMap(({ description, values }) =>
    description.fields.map(({ id, name }) => ({ id, name, values })),
  )
  const fields = [...new Map([...all].reverse().map(field => [field.id, field])).values()].reverse()
  const put = (id: string, part: Partial<DrawRange>, merge: string | null) =>
    editHead(
      { draw: { ...draw, [id]: { ...NEW, ...draw[id], ...part } } },
      merge === null ? null : `draw ${id} ${merge}`,
    )
  return (
    <div class="edit-group">
      <p class="hint">{say('lesson-edit-draw-hint')}</p>
      {Object.entries(draw).map(([id, range]) => (
        <Drawn
          key={id}
          name={fields.find(field => field.id === id)?.name ?? id}
          range={range}
          put={(part, merge) => put(id, part, merge)}
          remove={() => editHead({ draw: without(draw, id) })}
        />
      ))}
      <Select
        name={say('lesson-edit-draw-add')}
        value=""
        among={fields.filter(({ id }) => !Object.hasOwn(draw, id))}
        onChange={id => id !== '' && put(id, { of: [fields.find(field => field.id === id)?.values[id] ?? ''] }, null)}
      />
    </div>
  )
}

interface DrawnProperties {
  readonly name: string
  readonly range: DrawRange
  readonly put: (part: Partial<DrawRange>, merge: string | null) => void
  readonly remove: () => void
}

/** One field: alternatives, or a range. */
function Drawn({ name, range, put, remove }: DrawnProperties) {
  const of = range.of ?? []
  return (
    <fieldset class="edit-rows">
      <legend>{name}</legend>
      <LongText
        name={say('lesson-edit-draw-of')}
        hint={say('lesson-edit-draw-of-hint')}
        value={of.join('\n')}
        onChange={text => put({ of: text === '' ? [] : text.split('\n') }, 'of')}
      />
      {of.length === 0 && (
        <div class="edit-row">
          <TextInput
            name={say('lesson-edit-draw-from')}
            value={range.from ?? ''}
            onChange={from => put({ from }, 'from')}
          />
          <TextInput name={say('lesson-edit-draw-to')} value={range.to ?? ''} onChange={to => put({ to }, 'to')} />
          <Select
            name={say('lesson-edit-draw-series')}
            value={range.series ?? 'E12'}
            among={SERIES.map(id => ({ id, name: id }))}
            onChange={series => put({ series: series as SeriesName }, null)}
          />
        </div>
      )}
      <button type="button" class="chip" onClick={remove}>
        {say('lesson-edit-draw-remove', { field: name })}
      </button>
    </fieldset>
  )
}
