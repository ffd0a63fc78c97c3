import { AS_TYPED } from '../base/as-typed'
import { say } from '../base/words'
import { readingOf } from './bench'
import { commitByEnter } from './commit'
import { respond } from './lesson-state'
import type { Asked } from './step'

/** A reading as a number, through the reader of quantities. */
export function NumberAnswer({ step, bench, response }: Asked) {
  const name = readingOf(bench, step.reading)?.name ?? say('lesson-your-answer')
  return (
    <label class="lesson-number">
      <span>{name}</span>
      <input
        type="text"
        onKeyDown={commitByEnter}
        dir="auto"
        inputmode="text"
        enterkeyhint="done"
        {...AS_TYPED}
        value={response.text}
        placeholder={say('lesson-number-example')}
        onInput={event => respond({ text: event.currentTarget.value })}
      />
    </label>
  )
}
