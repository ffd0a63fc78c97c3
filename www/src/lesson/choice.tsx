import { useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { DealtStep, LessonResponse, Way } from '../../generated/contract'
import { say } from '../base/words'
import { bound } from './bound'
import { respond } from './lesson-state'
import { MoveButtons } from './move-buttons'
import type { Asked } from './step'
import { namedIn } from './told-in'
import { useDrag } from './use-drag'

/** The ways in the learner's order; those that it has not yet come as they were dealt. */
export function ordered({ ways }: DealtStep, { order }: LessonResponse): Way[] {
  const placed = order.flatMap(id => ways.filter(way => way.id === id))
  return [...placed, ...ways.filter(way => !order.includes(way.id))]
}

/** Ways to put in order, by dragging or by buttons. */
export function ChoiceAnswer({ state, step, dealt, response }: Asked) {
  const ways = ordered(dealt, response)
  const list = useRef<HTMLOListElement>(null)
  const [said, setSaid] = useState('')
  // Where a way is moved, the browser lets go of the button that moved it.
  const pressed = useRef<string | null>(null)
  useLayoutEffect(() => {
    if (pressed.current !== null) document.getElementById(pressed.current)?.focus()
    pressed.current = null
  })
  const move = (id: string, to: number) => {
    const from = ways.findIndex(way => way.id === id)
    const [way] = ways.slice(from, from + 1)
    if (way === undefined || to < 0 || to >= ways.length || to === from) return
    const others = ways.filter(other => other.id !== id)
    respond({ order: [...others.slice(0, to), way, ...others.slice(to)].map(({ id }) => id) })
    setSaid(say('lesson-placed', { way: way.name, place: `${to + 1}`, of: `${ways.length}` }))
  }
  const [dragged, drag] = useDrag(list, move)
  return (
    <div class="lesson-choice">
      <p class="hint">{say('lesson-order')}</p>
      <ol ref={list}>
        {ways.map(({ id, name }, place) => (
          <li key={id} data-way={id} data-dragged={dragged === id}>
            <span class="lesson-grip" aria-hidden="true" onPointerDown={() => drag(id)} />
            <span class="lesson-way" lang={step.ways.length > 0 ? namedIn(state, step, 'ways', Number(id)) : undefined}>
              {bound(name)}
            </span>
            <span class="lesson-moves">
              <MoveButtons
                name={name}
                at={place}
                of={ways.length}
                button={way => `lesson-${way}-${id}`}
                onMove={(to, button) => {
                  pressed.current = button
                  move(id, to)
                }}
              />
            </span>
          </li>
        ))}
      </ol>
      <p class="unseen" role="status">
        {said}
      </p>
    </div>
  )
}
