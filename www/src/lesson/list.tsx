import { useState } from 'preact/hooks'
import { ByHand } from '../base/by-hand'
import { ChooseFile } from '../base/choose-file'
import { language } from '../base/language'
import { isRecord } from '../base/shape'
import { say } from '../base/words'
import { EDITOR } from '../screen/lesson-drafts'
import { writeLesson } from '../screen/link'
import { getState, isEmbedded } from '../screen/store'
import { COLLECT, writeLessonAddress } from './address'
import { nameOf } from './language-name'
import { asks, lessonState } from './lesson-state'
import { addressOf, type Refused } from './opening'
import { runOf } from './runs'
import { shipped, type Shipped } from './shipped'
import { textOf } from './text-hash'
import { TrainerLinks } from './trainer-links'

/** The lessons that ship, and the way to others. */
export function LessonList() {
  const [refused, setRefused] = useState<Refused | null>(null)
  const openFile = async (file: File) => {
    // The system may keep it back, as one that was moved.
    const opened = await addressOf(file).catch((error: unknown): Refused => ({
      why: say('lesson-failed', { why: String(error) }),
      text: '',
    }))
    if (typeof opened === 'string') location.hash = opened
    else setRefused(opened)
  }
  return (
    <article class="lessons">
      <h1 tabIndex={-1}>{say('learn')}</h1>
      <p>{say('lesson-intro')}</p>
      <ul>
        {shipped.map(one => (
          <ShippedItem key={one.id} lesson={one} />
        ))}
      </ul>
      <div class="tools">
        <ChooseFile
          name={say('lesson-open-file')}
          accept=".json,application/json"
          onFile={file => void openFile(file)}
        />
        <a class="chip" href={writeLesson(writeLessonAddress({ what: COLLECT, seed: null, step: null, view: '' }))}>
          {say('lesson-collect')}
        </a>
        {!isEmbedded(getState()) && (
          <a class="chip" href={EDITOR}>
            {say('lesson-write')}
          </a>
        )}
      </div>
      <div role="alert">
        {refused !== null && (
          <div class="notice">
            <p>{refused.why}</p>
            {refused.text !== '' && <ByHand text={refused.text} why={say('lesson-text-kept')} />}
          </div>
        )}
      </div>
      <p class="hint">{say(lessonState()?.kept === false ? 'lesson-not-kept' : 'lesson-nothing-sent')}</p>
      <p class="hint">{say('lesson-can-be-read')}</p>
    </article>
  )
}

function ShippedItem({ lesson: { id, revision, title, language: told, minutes, file } }: { readonly lesson: Shipped }) {
  const steps = isRecord(file) && Array.isArray(file['steps']) ? file['steps'] : []
  const of = steps.filter(step => isRecord(step) && asks({ kind: `${step['kind']}` })).length
  const done = runOf({ id, revision, text: textOf(file) }, null)?.committed.filter(Boolean).length ?? 0
  return (
    <li>
      <a href={writeLesson(writeLessonAddress({ what: id, seed: null, step: null, view: '' }))}>
        <span class="title" lang={told}>
          {title}
        </span>
        <span class="hint">
          {say('lesson-minutes', { minutes: `${minutes}` })}
          {told !== language && ` · ${say('lesson-language', { language: nameOf(told) })}`}
          {done > 0 && ` · ${say('lesson-so-far', { done: `${done}`, of: `${of}` })}`}
        </span>
      </a>
      <TrainerLinks what={id} seed={null} />
    </li>
  )
}
