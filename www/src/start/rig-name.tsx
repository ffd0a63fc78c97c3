import type { InputHTMLAttributes, Ref } from 'preact'
import { AS_TYPED } from '../base/as-typed'
import { LONGEST_NAME } from '../screen/rigs'
import { say } from '../base/words'

interface Properties extends Pick<InputHTMLAttributes, 'placeholder' | 'aria-invalid'> {
  readonly name: string
  readonly onName: (name: string) => void
  readonly inputRef?: Ref<HTMLInputElement>
}

/** The field for the name of a rig. */
export function RigName({ name, onName, inputRef, ...more }: Properties) {
  return (
    <label>
      <span>{say('rig-name')}</span>
      <input
        type="text"
        {...AS_TYPED}
        enterkeyhint="done"
        maxLength={LONGEST_NAME}
        value={name}
        ref={inputRef ?? null}
        onInput={event => onName(event.currentTarget.value)}
        {...more}
      />
    </label>
  )
}
