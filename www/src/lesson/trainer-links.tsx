import { say } from '../base/words'
import { writeLesson } from '../screen/link'
import { writeLessonAddress } from './address'

const VIEWS = ['sheet', 'answers', 'class', 'package'] as const

interface Properties {
  readonly what: string
  /** Nothing where each opens with values of its own. */
  readonly seed: number | null
  /** The one that is on the screen. */
  readonly now?: string
}

/** The ways to a lesson for whoever teaches it. */
export function TrainerLinks({ what, seed, now = '' }: Properties) {
  const views = ['', ...VIEWS].filter(view => view !== now && (view !== '' || now !== ''))
  const links = (
    <p>
      {views.map(view => (
        <a key={view} href={writeLesson(writeLessonAddress({ what, seed, step: null, view }))}>
          {say(`lesson-view-${view === '' ? 'learner' : view}`)}
        </a>
      ))}
    </p>
  )
  // A learner has no use for them, a trainer who is on one of them has.
  if (now !== '') return <div class="lesson-trainer">{links}</div>
  return (
    <details class="lesson-trainer">
      <summary>{say('lesson-trainer')}</summary>
      {links}
    </details>
  )
}
