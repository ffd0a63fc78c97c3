import { say } from '../../base/words'
import { nameOf } from '../language-name'
import { leaveOutLanguage, useDraft } from './draft'
import { othersOf, untold } from './variants'

/** Which texts are edited here, and what becomes of those in other languages. */
export function Languages() {
  const lesson = useDraft(({ lesson }) => lesson)
  // A file need not say which it is.
  const own = nameOf(lesson.language || '?')
  return (
    <>
      {othersOf(lesson).map(tag => {
        const language = nameOf(tag)
        const count = untold(lesson, tag)
        return (
          <div key={tag} class="notice edit-language" data-language={tag}>
            <p>{say('lesson-edit-told', { own, language })}</p>
            <p role="status">
              {count === 0
                ? say('lesson-edit-told-all', { language })
                : say('lesson-edit-untold', { count: `${count}`, own, language })}
            </p>
            <button type="button" class="chip" onClick={() => leaveOutLanguage(tag)}>
              {say('lesson-edit-leave-out', { language })}
            </button>
          </div>
        )
      })}
    </>
  )
}
