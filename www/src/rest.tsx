import type { Description } from '../generated/contract'
import { Compare } from './answer/compare'
import { Further } from './answer/further'
import { Sources } from './answer/sources'
import { Tolerances } from './answer/tolerances'
import { Working } from './answer/working'
import { HearIt } from './hear-it'
import { embedOf, useStore } from './screen/store'
import { AskAboutAll } from './share/ask-about'
import { EmbedPanel } from './share/embed-panel'
import { Share } from './share/share'

/** What else there is to an answer, beneath its pictures. */
export function Rest({ description }: { readonly description: Description }) {
  const inLesson = useStore(state => embedOf(state) !== null)
  return (
    <>
      <HearIt key={description.id} description={description} />
      {description.tolerances && <Tolerances />}
      <Compare description={description} />
      <Further />
      <Working />
      <Sources />
      {!inLesson && <AskAboutAll />}
      {!inLesson && (
        <Share title={description.title} name={description.id}>
          <EmbedPanel description={description} />
        </Share>
      )}
    </>
  )
}
