import { useRef } from 'preact/hooks'
import type { FieldDescription, NumberDescription } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { Marks } from './marks'
import { putText } from '../screen/screen'
import { textOf } from '../screen/shown'
import { Slider } from './slider'
import { ThumbKeys } from './thumb-keys'
import { useStore } from '../screen/store'
import { say } from '../base/words'

interface Properties {
  readonly id: string
  readonly field: FieldDescription
  readonly number: NumberDescription
  readonly describedBy: string
}

export function NumberInput({ id, field, number, describedBy }: Properties) {
  const text = useStore(state =>
    textOf(field.id, state.place.kind === 'calculator' ? state.place.filling.current : {}, state),
  )
  const wrong = useStore(({ answer }) => Boolean(answer?.fields[field.id]?.problem))
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <div class="number">
        <span class="typed">
          <input
            ref={input}
            id={id}
            type="text"
            dir="auto"
            inputmode="decimal"
            {...AS_TYPED}
            enterkeyhint="done"
            value={text}
            placeholder={number.optional ? say('absent') : undefined}
            aria-invalid={wrong}
            aria-describedby={describedBy}
            onFocus={event => event.currentTarget.select()}
            onInput={event => putText(field.id, event.currentTarget.value)}
            onKeyDown={event => event.key === 'Enter' && event.currentTarget.select()}
          />
          {number.bare !== '' && !/[^\d\s.,+-]/.test(text) && text !== '' && (
            <span class="bare" aria-hidden="true">
              {number.bare}
            </span>
          )}
        </span>
        {number.usual_to > number.usual_from && <Slider field={field} number={number} />}
      </div>
      <ThumbKeys input={input} field={field.id} number={number} />
      <Marks field={field} number={number} />
    </>
  )
}
