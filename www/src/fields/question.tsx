import type { FieldDescription } from '../../generated/contract'
import { Field } from './field'
import { say } from '../base/words'

/** The few fields that make up the question; they stand before the answer. */
export function Question({ fields }: { readonly fields: readonly FieldDescription[] }) {
  if (fields.length === 0) return null
  return (
    <section class="question" aria-label={say('question')}>
      {fields.map(field => (
        <Field key={field.id} field={field} />
      ))}
    </section>
  )
}
