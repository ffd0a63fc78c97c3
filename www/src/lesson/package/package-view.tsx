import { useState } from 'preact/hooks'
import { download, fileName } from '../../base/download'
import { isSandboxed } from '../../base/sandbox'
import { say } from '../../base/words'
import { isLong } from '../../base/limit'
import { writeLesson } from '../../screen/link'
import { DEFAULTS } from '../../screen/settings'
import { savedPage } from '../../screen/save-page'
import { pack, writeLessonAddress } from '../address'
import { asks, type LessonState } from '../lesson-state'
import { titleOf } from '../title'
import type { Standard } from './manifest'
import { packed } from './package'

const STANDARDS: readonly Standard[] = ['scorm12', 'scorm2004', 'cmi5']

/** Makes a package of the lesson for a learning system. */
export function PackageView({ state }: { readonly state: LessonState }) {
  const [said, setSaid] = useState('')
  const save = async (standard: Standard) => {
    setSaid('')
    try {
      const made = await packageOf(state, standard)
      if (made === null) return setSaid(say('lesson-package-long'))
      download(made, 'application/zip', fileName([state.lesson.id, standard], 'zip'))
      setSaid(say(isSandboxed() ? 'save-refused' : 'lesson-package-saved'))
    } catch (error) {
      setSaid(say('lesson-package-failed', { why: String(error) }))
    }
  }
  return (
    <article class="lesson">
      <h1 tabIndex={-1}>{say('lesson-package')}</h1>
      <p>{say('lesson-package-intro', { title: titleOf(state.lesson) })}</p>
      {isPassable(state) ? (
        <ul class="lesson-standards">
          {STANDARDS.map(standard => (
            <li key={standard}>
              <button type="button" class="chip" data-standard={standard} onClick={() => void save(standard)}>
                {say(`lesson-package-${standard}`)}
              </button>
              <span class="hint">{say(`lesson-package-${standard}-hint`)}</span>
            </li>
          ))}
        </ul>
      ) : (
        <p class="problem" role="alert">
          {say('lesson-package-no-pass')}
        </p>
      )}
      <p role="status">{said}</p>
      <p class="hint">{say('lesson-package-what')}</p>
      <p class="hint">{say('lesson-package-none')}</p>
    </article>
  )
}

/** Whether somebody can fail: where no share of the points has to be reached, everybody passes. */
function isPassable({ lesson: { steps, pass } }: LessonState): boolean {
  return pass > 0 || !steps.some(asks)
}

/** The bytes of a package; nothing where the lesson is too long to be opened by an address. */
async function packageOf({ lesson, file }: LessonState, standard: Standard): Promise<Uint8Array<ArrayBuffer> | null> {
  // As its file has it: learners have languages of their own, and by its text it is known.
  const text = JSON.stringify(file)
  const what = await pack(text)
  if (what === null) return null
  const address = `${writeLesson(writeLessonAddress({ what, seed: null, step: null, view: '' }))}?lesson&launched`
  if (isLong(address)) return null
  const page = await savedPage({ hash: '', settings: DEFAULTS, theme: 'system', working: false })
  const { id, revision, title, language, steps } = lesson
  const pass = steps.some(step => asks(step) && step.points > 0) ? lesson.pass : null
  const unreached = say('lesson-package-unreached')
  return packed(standard, { id, revision, title, language, pass, text, address, page, unreached })
}
