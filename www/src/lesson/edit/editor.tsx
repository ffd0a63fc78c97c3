import { useEffect, useState } from 'preact/hooks'
import { ByHand } from '../../base/by-hand'
import { ChooseFile } from '../../base/choose-file'
import { visible } from '../../base/visible'
import { say } from '../../base/words'
import * as address from '../../screen/address'
import { drafts, EDITOR } from '../../screen/lesson-drafts'
import { readPlace, writeLesson } from '../../screen/link'
import { setState } from '../../screen/store'
import { useUndoKeys } from '../../base/undo-keys'
import type { LessonAddress } from '../address'
import type { Refused } from '../opening'
import { bringAddress, bringFile } from './bring-in'
import { choose, keyOf, letGo, open, openNew, openNewest, redo, undo, useDraft } from './draft'
import { HeadForm } from './head-form'
import { Languages } from './languages'
import { Seeds } from './seeds'
import { StepForm } from './step-form'
import { StepList } from './step-list'
import { TakeAlong } from './take-along'

/** In place of a lesson: the one that is being written. */
export const DRAFT = 'draft'

/** Writes lessons: the one that is being written, or another that is taken in first. */
export function Editor({ address: { what, step } }: { readonly address: LessonAddress }) {
  const [refused, setRefused] = useState<Refused | null>(null)
  useEffect(() => {
    if (what === DRAFT || what === '') openNewest(step)
    else
      void bringAddress(what)
        .catch(notBrought)
        .then(refused => {
          setRefused(refused)
          toDraft()
        })
  }, [what, step])
  useUndoKeys(way => (way === 'undo' ? undo() : redo()))
  return (
    <article class="lesson-edit">
      <h1 tabIndex={-1}>{say('lesson-edit')}</h1>
      <Bar onFile={file => void bringFile(file).catch(notBrought).then(setRefused)} />
      <div role="alert">
        {refused !== null && (
          <div class="notice">
            <p>{refused.why}</p>
            {refused.text !== '' && <ByHand text={refused.text} why={say('lesson-text-kept')} />}
            <button type="button" class="chip" onClick={() => setRefused(null)}>
              {say('close')}
            </button>
          </div>
        )}
      </div>
      <NotKept />
      <Languages />
      <div class="edit-parts">
        <div class="edit-side">
          <HeadChoice />
          <StepList />
        </div>
        <Form />
      </div>
      <Seeds />
      <TakeAlong />
    </article>
  )
}

/** What keeps anything from being read is told, whatever it is. */
function notBrought(error: unknown): Refused {
  return { why: say('lesson-failed', { why: String(error) }), text: '' }
}

/** What was taken in is a draft from now on: opened again, its address brings it as it is then. */
function toDraft(): void {
  const place = readPlace(EDITOR)
  if (place.kind !== 'lesson') return
  setState({ place })
  address.replaceSoon(() => EDITOR)
}

function Bar({ onFile }: { readonly onFile: (file: File) => void }) {
  const undoable = useDraft(({ done }) => done.length > 0)
  const redoable = useDraft(({ undone }) => undone.length > 0)
  return (
    <div class="tools edit-bar">
      <button type="button" class="chip" disabled={!undoable} onClick={undo}>
        {say('undo')}
      </button>
      <button type="button" class="chip" disabled={!redoable} onClick={redo}>
        {say('redo')}
      </button>
      <Which />
      <button type="button" class="chip" onClick={openNew}>
        {say('lesson-edit-new')}
      </button>
      <ChooseFile name={say('lesson-open-file')} accept=".json,.html,application/json,text/html" onFile={onFile} />
      <LetGo />
      <a class="chip" href={writeLesson()}>
        {say('lesson-all')}
      </a>
    </div>
  )
}

/** The lessons that are written on this device, one of which is open. */
function Which() {
  const { id } = useDraft(({ lesson }) => lesson)
  const all = drafts()
  if (all.length < 2) return null
  return (
    <label class="edit-which">
      <span>{say('lesson-edit-which')}</span>
      <select
        value={id}
        onChange={({ currentTarget: { value } }) => {
          const draft = all.find(({ lesson }) => lesson.id === value)
          if (draft !== undefined) open(draft)
        }}
      >
        {all.map(({ lesson: { id, title } }) => (
          <option key={id} value={id}>
            {visible(title ?? '') || say('lesson-edit-untitled')}
          </option>
        ))}
      </select>
    </label>
  )
}

/** Deletes the lesson from this device, once that was asked. */
function LetGo() {
  const id = useDraft(({ lesson }) => lesson.id)
  const title = useDraft(({ lesson }) => lesson.title)
  const [asked, setAsked] = useState(false)
  if (!asked) {
    return (
      <button type="button" class="chip" onClick={() => setAsked(true)}>
        {say('lesson-edit-let-go')}
      </button>
    )
  }
  return (
    <span class="tools" role="group" aria-label={say('lesson-edit-let-go')}>
      <span>{say('lesson-edit-let-go-sure', { title: visible(title ?? '') || say('lesson-edit-untitled') })}</span>
      <button
        type="button"
        class="chip"
        onClick={() => {
          setAsked(false)
          letGo(id)
        }}
      >
        {say('lesson-edit-let-go')}
      </button>
      <button type="button" class="chip" onClick={() => setAsked(false)}>
        {say('lesson-edit-stay')}
      </button>
    </span>
  )
}

function NotKept() {
  const kept = useDraft(({ kept }) => kept)
  return <p role="status">{!kept && say('lesson-edit-not-kept')}</p>
}

/** The way to what the lesson says of itself. */
function HeadChoice() {
  const chosen = useDraft(({ chosen }) => chosen)
  const title = useDraft(({ lesson }) => lesson.title)
  const flaws = useDraft(({ read }) => read.flaws).filter(({ step }) => step === null)
  return (
    <button type="button" class="edit-choose edit-head" aria-current={chosen === null} onClick={() => choose(null)}>
      <span dir="auto">{visible(title ?? '') || say('lesson-edit-untitled')}</span>
      <span class="hint">
        {say('lesson-edit-head')}
        {flaws.length > 0 && (
          <strong class="edit-flawed"> · {say('lesson-edit-flawed', { count: `${flaws.length}` })}</strong>
        )}
      </span>
    </button>
  )
}

function Form() {
  const chosen = useDraft(({ chosen }) => chosen)
  const steps = useDraft(({ lesson }) => lesson.steps)
  const id = useDraft(({ lesson }) => lesson.id)
  const at = steps.findIndex(step => keyOf(step) === chosen)
  const step = steps[at]
  // Each has inputs of its own.
  if (step === undefined) return <HeadForm key={id} />
  return <StepForm key={chosen} step={step} at={at} />
}
