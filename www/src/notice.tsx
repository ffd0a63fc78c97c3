import { Copy } from './base/copy'
import { descriptionOf } from './screen/descriptions'
import { isHidden } from './screen/embed'
import { entryOf } from './engine/entries'
import { isHiding, isLong, LONGEST } from './base/limit'
import { isLate, split, type Filling } from './screen/link'
import { useStore } from './screen/store'
import { forget } from './screen/screen'
import { say } from './base/words'

/** At most this many pieces of a text are shown, and of each this many characters; a copy has all of it. */
const SHOWN = 12
const LETTERS = 400

/** What of a link could not be used or written, with its text, so that nothing is lost. */
export function Notice() {
  const settings = useStore(state => state.settings)
  const full = useStore(state => state.full)
  // While all is well this need not follow what is typed.
  const place = useStore(({ place, answer }) => {
    const well =
      place.kind === 'calculator' &&
      place.filling.embed === null &&
      place.spare.length === 0 &&
      answer !== null &&
      answer.problems.length === 0
    return well && !full ? null : place
  })
  if (place === null || place.kind === 'list' || place.kind === 'about') return null
  // These say themselves what they could not read.
  if (isLate(place)) return null
  if (place.kind === 'unread') {
    const long = { count: `${place.raw.length}`, longest: `${LONGEST}` }
    const message = isLong(place.raw) ? say('link-long', long) : say('link-version')
    // That of a lesson may tell what its author hides.
    if (isHiding(place.raw)) return <Box message={say('link-hiding')} pieces={[]} />
    return <Box message={message} pieces={[place.raw]} whole={`${location.href.replace(/#.*/s, '')}#${place.raw}`} />
  }
  if (place.kind === 'entry') {
    return entryOf(place.id, settings) !== undefined ? null : (
      <Box message={say('link-entry', { id: beginningOf(place.id) })} pieces={[]} />
    )
  }
  return <FillingNotice filling={place.filling} spare={place.spare} full={full} />
}

interface FillingProperties {
  readonly filling: Filling
  /** Pieces of its link that could not be taken over. */
  readonly spare: readonly string[]
  /** Whether it is too much for a link. */
  readonly full: boolean
}

/** What of the link of a calculator could not be used. */
function FillingNotice({ filling, spare, full }: FillingProperties) {
  const settings = useStore(state => state.settings)
  const problems = useStore(({ answer }) => answer?.problems)
  const known = descriptionOf(filling.calculator, settings)
  if (known === undefined) {
    const told = Object.entries(filling.current).filter(([id]) => !isHidden(filling.embed, id))
    const pieces = told.map(([id, text]) => `${id} = ${text}`)
    const all = [...pieces, ...spare]
    const message = [
      say('link-calculator', { id: beginningOf(filling.calculator) }),
      all.length > 0 ? say('link-filled') : '',
    ]
    return <Box message={message.join(' ').trim()} pieces={all} />
  }
  const { open, locked, hidden } = filling.embed ?? { open: null, locked: [], hidden: [] }
  const unknown = [...(open ?? []), ...locked, ...hidden].filter(id => known.fields.every(field => field.id !== id))
  // The engine speaks of strange fields first, in the order in which they came,
  // or of all of them at once where they are many.
  const strange = Object.keys(filling.current).filter(id => known.fields.every(field => field.id !== id))
  const grouped = (problems?.length ?? 0) < strange.length ? [strange] : strange.map(id => [id])
  // A set that is one too many may name what its author hides.
  const told = (set: string) => set.split('&').every(piece => !isHidden(filling.embed, split(piece, '=')[0]))
  return (
    <>
      {full && <Box message={say('link-full')} pieces={[]} />}
      {spare.length > 0 && <Box message={say('link-spare')} pieces={spare.filter(told)} />}
      {unknown.length > 0 && <Box message={say('frame-unknown')} pieces={unknown} />}
      {problems?.map(({ message }, index) => {
        const ids = grouped[index]
        return ids === undefined ? (
          <Box key={message} message={message} pieces={[]} />
        ) : (
          <Box
            key={ids[0]}
            message={message}
            pieces={ids.map(id => `${id} = ${filling.current[id]}`)}
            onForget={() => forget(ids)}
          />
        )
      })}
    </>
  )
}

/** A text, or as much of it as helps to know it again. */
function beginningOf(text: string): string {
  return text.length > LETTERS ? `${text.slice(0, LETTERS)}…` : text
}

interface Properties {
  readonly message: string
  readonly pieces: readonly string[]
  /** What is copied, where the pieces are not all of it. */
  readonly whole?: string
  readonly onForget?: () => void
}

/** What cannot be used, with its text to copy. */
export function Box({ message, pieces, whole, onForget }: Properties) {
  return (
    <div class="notice" role="alert">
      <p>{message}</p>
      {pieces.slice(0, SHOWN).map((piece, index) => (
        <pre key={index}>{beginningOf(piece)}</pre>
      ))}
      {pieces.length > SHOWN && <p>{say('notice-more', { count: `${pieces.length - SHOWN}` })}</p>}
      {pieces.length > 0 && <Copy text={() => whole ?? pieces.join('\n')} name={say('notice-copy')} />}
      {onForget !== undefined && (
        <button type="button" class="chip" onClick={onForget}>
          {say('forget')}
        </button>
      )}
    </div>
  )
}
