import { useLayoutEffect, useRef, useState } from 'preact/hooks'
import { say } from '../../base/words'
import type { DraftStep } from '../../screen/lesson-drafts'
import { MoveButtons } from '../move-buttons'
import { useDrag } from '../use-drag'
import { choose, edit, getDraft, keyOf, useDraft } from './draft'
import { KINDS } from './kinds'

/** The steps in their order: to choose, move, copy and remove. */
export function StepList() {
  const steps = useDraft(({ lesson }) => lesson.steps)
  const flaws = useDraft(({ read }) => read.flaws)
  const chosen = useDraft(({ chosen }) => chosen)
  const list = useRef<HTMLOListElement>(null)
  const [said, setSaid] = useState('')
  // Where a step is moved, the browser lets go of the button that moved it.
  const pressed = useRef<string | null>(null)
  useLayoutEffect(() => {
    if (pressed.current !== null) document.getElementById(pressed.current)?.focus()
    pressed.current = null
  })
  const move = (key: string, to: number, merge: string | null = null) => {
    const { steps } = getDraft().lesson
    const from = steps.findIndex(step => keyOf(step) === key)
    const [step] = steps.slice(from, from + 1)
    if (step === undefined || to < 0 || to >= steps.length || to === from) return
    const others = steps.filter(other => other !== step)
    edit(lesson => ({ ...lesson, steps: [...others.slice(0, to), step, ...others.slice(to)] }), merge)
    const place = { way: step.title ?? '', place: `${to + 1}`, of: `${steps.length}` }
    setSaid(say('lesson-placed', place))
  }
  const [dragged, drag] = useDrag(list, (key, to) => move(key, to, `drag ${key}`))
  return (
    <section class="edit-steps" aria-labelledby="edit-steps">
      <h2 id="edit-steps">{say('lesson-ways')}</h2>
      <ol ref={list}>
        {steps.map((step, at) => (
          <Item
            key={keyOf(step)}
            step={step}
            at={at}
            of={steps.length}
            chosen={chosen === keyOf(step)}
            dragged={dragged === keyOf(step)}
            flaws={flaws.filter(flaw => flaw.step === at + 1).length}
            onDrag={() => drag(keyOf(step))}
            onMove={(to, button) => {
              pressed.current = button
              move(keyOf(step), to)
            }}
          />
        ))}
      </ol>
      <p class="unseen" role="status">
        {said}
      </p>
      <AddStep />
    </section>
  )
}

interface ItemProperties {
  readonly step: DraftStep
  readonly at: number
  readonly of: number
  readonly chosen: boolean
  readonly dragged: boolean
  readonly flaws: number
  readonly onDrag: () => void
  readonly onMove: (to: number, button: string) => void
}

function Item({ step, at, of, chosen, dragged, flaws, onDrag, onMove }: ItemProperties) {
  const key = keyOf(step)
  const title = step.title || say('lesson-edit-step', { step: `${at + 1}` })
  const kind = KINDS.some(kind => kind === step.kind) ? say(`lesson-kind-${step.kind}`) : step.kind
  return (
    <li data-dragged={dragged} data-chosen={chosen}>
      <span class="lesson-grip" aria-hidden="true" onPointerDown={onDrag} />
      <button type="button" class="edit-choose" aria-current={chosen} onClick={() => openForm(key)}>
        <span>
          {at + 1}. {title}
        </span>
        <span class="hint">
          {kind}
          {flaws > 0 && <strong class="edit-flawed"> · {say('lesson-edit-flawed', { count: `${flaws}` })}</strong>}
        </span>
      </button>
      <span class="edit-acts">
        <MoveButtons name={title} at={at} of={of} button={way => `edit-${way}-${key}`} onMove={onMove} />
        <button
          type="button"
          class="lesson-move"
          aria-label={say('lesson-edit-copy', { step: title })}
          title={say('lesson-edit-copy', { step: title })}
          onClick={() => put(at + 1, 0, { ...step })}
        >
          <Icon path="M8 8h11v12H8zM5 16V4h11" />
        </button>
        <button
          type="button"
          class="lesson-move"
          aria-label={say('lesson-edit-delete', { step: title })}
          title={say('lesson-edit-delete', { step: title })}
          onClick={() => put(at, 1)}
        >
          <Icon path="M5 7h14M10 7V4h4v3M7 7l1 13h8l1-13M10.5 10.5v6.5M13.5 10.5v6.5" />
        </button>
      </span>
    </li>
  )
}

function Icon({ path }: { readonly path: string }) {
  return (
    <svg class="edit-icon" viewBox="0 0 24 24" aria-hidden="true">
      <path d={path} />
    </svg>
  )
}

function put(at: number, instead: number, ...steps: DraftStep[]): void {
  edit(lesson => ({ ...lesson, steps: [...lesson.steps.slice(0, at), ...steps, ...lesson.steps.slice(at + instead)] }))
  const [first] = steps
  if (first !== undefined) openForm(keyOf(first))
}

/** Opens the form of a step, and brings it on the screen where it stands below the list. */
export function openForm(key: string): void {
  choose(key)
  requestAnimationFrame(() => {
    const heading = document.getElementById('edit-form')
    heading?.focus({ preventScroll: true })
    const { top = 0 } = heading?.getBoundingClientRect() ?? {}
    if (top < 0 || top > innerHeight / 2) heading?.scrollIntoView({ block: 'start' })
  })
}

function AddStep() {
  return (
    <div class="edit-field">
      <label for="edit-add">{say('lesson-edit-add')}</label>
      <select
        id="edit-add"
        value=""
        onChange={({ currentTarget }) => {
          const { value: kind } = currentTarget
          currentTarget.value = ''
          if (kind !== '') put(getDraft().lesson.steps.length, 0, newStep(kind))
        }}
      >
        <option value="">{say('lesson-edit-choose')}</option>
        {KINDS.map(kind => (
          <option key={kind} value={kind}>
            {say(`lesson-kind-${kind}`)}
          </option>
        ))}
      </select>
    </div>
  )
}

function newStep(kind: string): DraftStep {
  return { kind, title: '', ...(kind === 'read' ? {} : { points: 2 }) }
}
