import { useEffect, useId, useState } from 'preact/hooks'
import { AS_TYPED } from '../base/as-typed'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import { askedName } from './bench'
import { commitByEnter } from './commit'
import { respond, understood } from './lesson-state'
import type { Asked } from './step'

/** A reading as a number, through the reader of quantities. */
export function NumberAnswer(asked: Asked) {
  const { step, bench, response } = asked
  const name = askedName(bench, step.reading) || say('lesson-your-answer')
  const read = useUnderstood(asked)
  const id = useId()
  return (
    <div class="lesson-number">
      <label for={id}>{name}</label>
      <input
        id={id}
        aria-describedby={`${id}-read`}
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
      <p id={`${id}-read`} class="hint lesson-read">
        {read !== '' && say('lesson-read-as', { text: read })}
      </p>
    </div>
  )
}

/** How long typing rests before it is read, in milliseconds. */
const REST = 250

/** How a number was understood, where that is not what was typed. */
function useUnderstood({ state, at, response: { text } }: Asked): string {
  const settings = useStore(state => state.settings)
  const [read, setRead] = useState({ text: '', as: '' })
  useEffect(() => {
    if (text.trim() === '') return
    let isNewest = true
    const timer = setTimeout(() => {
      understood(state, at, settings).then(
        as => isNewest && setRead({ text, as }),
        // It is told once it is committed.
        () => undefined,
      )
    }, REST)
    return () => {
      isNewest = false
      clearTimeout(timer)
    }
  }, [state, at, text, settings])
  return read.text === text && !isAlike(read.as, text) ? read.as : ''
}

/** What is rounded in between, as a share. */
const ROUNDED = 0.02

/** Whether two texts are the same number, however it is rounded and written, in the same unit. */
function isAlike(a: string, b: string): boolean {
  const [one, other] = [a, b].map(text => {
    const plain = text.replace(/\s/g, '').replace('−', '-').replace(',', '.')
    const [number = ''] = /^[-+]?[\d.]*/.exec(plain) ?? []
    return { number: Number(number), unit: plain.slice(number.length) }
  })
  if (one === undefined || other === undefined || one.unit !== other.unit) return false
  return Math.abs(one.number - other.number) <= ROUNDED * Math.abs(one.number)
}
