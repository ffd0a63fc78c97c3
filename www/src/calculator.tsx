import type { Description } from '../generated/contract'
import { Answer } from './answer'
import { Compare } from './compare'
import { Embed } from './embed'
import { Fixed } from './fixed'
import { Further } from './further'
import { Glance } from './glance'
import { WholePage } from './header'
import { isFixed, lessonOf } from './lesson'
import { Pin } from './pin'
import { Plots } from './plots'
import { Presets } from './presets'
import { Share } from './share'
import { Sources } from './sources'
import { useStore } from './store'
import { Tolerances } from './tolerances'
import { Way } from './way'
import { Working } from './working'

/** The screen of a calculator. */
export function Calculator({ description }: { readonly description: Description }) {
  const answered = useStore(({ good }) => good !== null)
  const lesson = useStore(lessonOf)
  const wrong = useStore(({ answer }) => description.fields.find(({ id }) => answer?.fields[id]?.problem)?.id)
  // What is hidden and makes no sense is shown, or nobody could mend it.
  const fields = description.fields.filter(({ id }) => !lesson?.hidden.includes(id) || id === wrong)
  const fixed = description.fields.every(({ id, number }) => number === null || isFixed(lesson, id))
  return (
    <article class="calculator" data-calculator={description.id} data-fixed={fixed}>
      <div class="intro">
        <div class="titled">
          <h1 tabIndex={-1}>{description.title}</h1>
          {lesson === null ? <Pin calculator={description.id} /> : <WholePage />}
        </div>
        <p>{description.purpose}</p>
      </div>
      {answered && lesson === null && <Glance />}
      <Answer description={description} />
      <div class="inputs">
        {lesson !== null && <Fixed lesson={lesson} description={description} />}
        <Presets presets={lesson === null ? description.presets : []} fixed={fixed} />
        <Way fields={fields} />
      </div>
      {answered && (
        <div class="rest">
          <Plots description={description} />
          {description.tolerances && <Tolerances />}
          <Compare description={description} />
          <Further />
          <Working />
          <Sources />
          {lesson === null && (
            <Share title={description.title} name={description.id}>
              <Embed description={description} />
            </Share>
          )}
        </div>
      )}
    </article>
  )
}
