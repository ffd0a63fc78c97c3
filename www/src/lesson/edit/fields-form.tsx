import { say } from '../../base/words'
import { Checks, Select } from './inputs'
import { needsOf } from './kinds'
import type { Formed } from './step-form'

/** What a learner is shown of the fields of the rig, and what feedback works back to. */
export function FieldsForm({ step, offers, put }: Formed) {
  const { open = [], given = [] } = step
  const fields = offers?.description.fields ?? []
  if (fields.length + open.length + given.length === 0) return null
  const named = (id: string) => fields.find(field => field.id === id)?.name ?? id
  return (
    <>
      <Checks
        name={say('lesson-edit-given')}
        told={given.length === 0 ? say('lesson-edit-given-none') : given.map(named).join(', ')}
        hint={say('lesson-edit-given-hint')}
        among={fields}
        chosen={given}
        onChange={given => put({ given }, null)}
      />
      {(needsOf(step.kind).back || open.length > 0) && (
        <Select
          name={say('lesson-edit-back')}
          hint={say('lesson-edit-back-hint')}
          value={open[0] ?? ''}
          among={fields.filter(({ number }) => number !== null)}
          none={say('lesson-edit-back-none')}
          onChange={id => put({ open: id === '' ? [] : [id] }, null)}
        />
      )}
    </>
  )
}
