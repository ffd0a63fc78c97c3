import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { go, type LessonState } from '../lesson-state'
import { titleOf } from '../title'
import { titledIn } from '../told-in'
import { TrainerLinks } from '../trainer-links'
import { areKeysOn, keepKeysOn, useKeys, type Deed } from './keys'
import { NoteText } from './note-text'
import { useNotesWindow } from './notes-window'
import { revealName } from './reveal-name'
import { Slide, useMeasurements } from './slide'
import { after, isCovered, type Uncovered } from './uncovered'

interface Properties {
  readonly state: LessonState
}

/** A lesson on a wall: one step a screen. What is revealed is not committed. */
export function Projector({ state }: Properties) {
  const { lesson, step, seed } = state
  const at = Math.min(step, lesson.steps.length - 1)
  const [seen, setSeen] = useState<Readonly<Record<number, Uncovered>>>({})
  const [notes, setNotes] = useState(false)
  const [blank, setBlank] = useState(false)
  const [keys, setKeys] = useState(areKeysOn)
  const measured = useMeasurements(state)
  const heading = useRef<HTMLElement>(null)
  const uncovered = seen[at] ?? 'nothing'
  const asked = lesson.steps[at]
  useEffect(() => setSeen({}), [lesson, seed])
  const deeds: Record<Deed, () => void> = {
    back: () => go(Math.max(at - 1, 0)),
    next: () => go(Math.min(at + 1, lesson.steps.length - 1)),
    reveal: () => asked !== undefined && isCovered(asked) && setSeen({ ...seen, [at]: after(uncovered, asked) }),
    notes: () => setNotes(!notes),
    blank: () => setBlank(!blank),
  }
  useKeys(keys, deeds)
  const { openNotes, refused } = useNotesWindow({ step: at, uncovered }, deeds)
  const last = useRef(at)
  useLayoutEffect(() => {
    if (last.current === at) return
    last.current = at
    heading.current?.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true })
    heading.current?.scrollIntoView({ block: 'start' })
  }, [at])
  return (
    <article ref={heading} class="lesson-class" lang={lesson.language || undefined}>
      <header>
        <h1 tabIndex={-1} dir="auto" lang={titledIn(state, lesson)}>
          {titleOf(lesson)}
        </h1>
        <p>{say('lesson-step-of', { step: `${at + 1}`, steps: `${lesson.steps.length}` })}</p>
      </header>
      <Slide key={`${seed} ${at}`} state={state} at={at} uncovered={uncovered} measured={measured[at] ?? []} />
      {notes && (
        <aside class="lesson-note" aria-label={say('lesson-note')}>
          <NoteText state={state} at={at} withKey={false} />
        </aside>
      )}
      <Ways
        at={at}
        steps={lesson.steps}
        uncovered={uncovered}
        notes={notes}
        deeds={deeds}
        onNotes={openNotes}
        keys={keys}
        onKeys={setKeys}
      />
      <p role="status">{refused && say('lesson-notes-refused')}</p>
      <TrainerLinks what={state.what} seed={seed} now="class" />
      {blank && <Blank onEnd={deeds.blank} />}
    </article>
  )
}

interface WaysProperties {
  readonly at: number
  readonly steps: readonly LessonStep[]
  readonly uncovered: Uncovered
  /** Whether notes are shown. */
  readonly notes: boolean
  readonly deeds: Readonly<Record<Deed, () => void>>
  readonly onNotes: () => void
  readonly keys: boolean
  readonly onKeys: (keys: boolean) => void
}

/** Every key has a button. */
function Ways({ at, steps, uncovered, notes, deeds, onNotes, keys, onKeys }: WaysProperties) {
  const step = steps[at]
  return (
    <nav class="lesson-class-ways" aria-label={say('lesson-ways')}>
      <Way deed="back" mark="←" isOff={at === 0} deeds={deeds} keys={keys} />
      <Way
        deed="reveal"
        name={step && revealName(uncovered, step)}
        mark={say('lesson-key-space')}
        isOff={step === undefined || !isCovered(step)}
        deeds={deeds}
        keys={keys}
      />
      <Way deed="next" mark="→" isOff={at === steps.length - 1} deeds={deeds} keys={keys} />
      <Way deed="notes" mark="N" deeds={deeds} keys={keys} pressed={notes} />
      <button type="button" class="chip" onClick={onNotes}>
        {say('lesson-notes-window')}
      </button>
      <Way deed="blank" mark="P" deeds={deeds} keys={keys} />
      <label class="lesson-check">
        <input
          type="checkbox"
          checked={keys}
          onChange={event => {
            keepKeysOn(event.currentTarget.checked)
            onKeys(event.currentTarget.checked)
          }}
        />{' '}
        {say('lesson-keys-on')}
      </label>
    </nav>
  )
}

interface WayProperties {
  readonly deed: Deed
  /** What it says, where that is not always the same. */
  readonly name?: string | undefined
  /** The key that does it too. */
  readonly mark: string
  readonly deeds: Readonly<Record<Deed, () => void>>
  readonly keys: boolean
  readonly isOff?: boolean
  readonly pressed?: boolean
}

function Way({ deed, name, mark, deeds, keys, isOff = false, pressed }: WayProperties) {
  return (
    <button
      type="button"
      class="chip"
      data-deed={deed}
      aria-disabled={isOff}
      aria-pressed={pressed}
      onClick={() => !isOff && deeds[deed]()}
    >
      {name ?? say(`lesson-class-${deed}`)}
      {keys && <kbd aria-hidden="true">{mark}</kbd>}
    </button>
  )
}

/** Nothing on the wall, while people talk. */
function Blank({ onEnd }: { readonly onEnd: () => void }) {
  const button = useRef<HTMLButtonElement>(null)
  useLayoutEffect(() => {
    const before = document.activeElement
    button.current?.focus()
    return () => {
      if (before instanceof HTMLElement) before.focus({ preventScroll: true })
    }
  }, [])
  return (
    <div class="lesson-blank">
      <button ref={button} type="button" class="chip" data-deed="show" onClick={onEnd}>
        {say('lesson-class-show')}
      </button>
    </div>
  )
}
