import { EDITOR } from '../screen/lesson-drafts'
import { rigWanted, wantRig } from '../screen/rig-wanted'
import { useStore } from '../screen/store'
import { shownRig } from '../share/ask-about'

/** On a calculator that was opened for the rig of a lesson: takes its values there, and the way back. */
export function RigBar() {
  const place = useStore(({ place }) => place)
  const answered = useStore(({ good }) => good !== null)
  const wanted = rigWanted()
  if (wanted === null || place.kind !== 'calculator' || place.filling.embed !== null) return null
  return (
    <section class="line-bar" aria-label={wanted.words.of}>
      <span>{wanted.words.of}</span>
      <a class="chip" href={EDITOR} onClick={() => wantRig(null)}>
        {wanted.words.back}
      </a>
      {answered && (
        <a class="chip" href={EDITOR} onClick={() => wantRig({ ...wanted, taken: shownRig() })}>
          {wanted.words.take}
        </a>
      )}
    </section>
  )
}
