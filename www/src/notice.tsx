import { useEffect, useState } from 'preact/hooks'
import { Copy } from './copy'
import { descriptionOf } from './descriptions'
import { entryOf } from './entries'
import { damaged, dropDamaged, whenDamaged } from './kept'
import { useStore } from './store'
import { forget } from './screen'
import { say } from './words'

/** What this browser had kept and nobody can read any more, with its text. */
export function DamagedNotice() {
  const [pieces, setPieces] = useState(damaged)
  useEffect(() => {
    const look = () => setPieces(damaged())
    look()
    return whenDamaged(look)
  }, [])
  if (pieces.length === 0) return null
  return (
    <Box
      message={say('kept-damaged')}
      pieces={pieces}
      onForget={() => {
        dropDamaged()
        setPieces([])
      }}
    />
  )
}

/** What of a link could not be used, with its text, so that nothing is lost. */
export function Notice() {
  const settings = useStore(state => state.settings)
  const problems = useStore(({ answer }) => answer?.problems)
  // While all is well this need not follow what is typed.
  const place = useStore(({ place, answer }) => {
    const well =
      place.kind === 'calculator' &&
      place.filling.lesson === null &&
      place.spare.length === 0 &&
      answer !== null &&
      answer.problems.length === 0
    return well ? null : place
  })
  if (place === null || place.kind === 'list') return null
  if (place.kind === 'unread') {
    return <Box message={say('link-version')} pieces={[place.raw]} />
  }
  if (place.kind === 'entry') {
    return entryOf(place.id, settings) !== undefined ? null : (
      <Box message={say('link-entry', { id: place.id })} pieces={[]} />
    )
  }
  const { filling, spare } = place
  const known = descriptionOf(filling.calculator, settings)
  if (known === undefined) {
    const pieces = Object.entries(filling.current).map(([id, text]) => `${id} = ${text}`)
    const all = [...pieces, ...spare]
    const message = [say('link-calculator', { id: filling.calculator }), all.length > 0 ? say('link-filled') : '']
    return <Box message={message.join(' ').trim()} pieces={all} />
  }
  const { locked, hidden } = filling.lesson ?? { locked: [], hidden: [] }
  const unknown = [...locked, ...hidden].filter(id => known.fields.every(field => field.id !== id))
  // The engine speaks of strange fields first, in the order in which they came.
  const strange = Object.keys(filling.current).filter(id => known.fields.every(field => field.id !== id))
  return (
    <>
      {spare.length > 0 && <Box message={say('link-spare')} pieces={spare} />}
      {unknown.length > 0 && <Box message={say('lesson-unknown')} pieces={unknown} />}
      {problems?.map(({ message }, index) => {
        const id = strange[index]
        return id === undefined ? (
          <Box key={message} message={message} pieces={[]} />
        ) : (
          <Box
            key={message}
            message={message}
            pieces={[`${id} = ${filling.current[id]}`]}
            onForget={() => forget(id)}
          />
        )
      })}
    </>
  )
}

interface Properties {
  readonly message: string
  readonly pieces: readonly string[]
  readonly onForget?: () => void
}

function Box({ message, pieces, onForget }: Properties) {
  return (
    <div class="notice" role="alert">
      <p>{message}</p>
      {pieces.map(piece => (
        <pre key={piece}>{piece}</pre>
      ))}
      {pieces.length > 0 && <Copy text={() => pieces.join('\n')} name={say('notice-copy')} />}
      {onForget !== undefined && (
        <button type="button" class="chip" onClick={onForget}>
          {say('forget')}
        </button>
      )}
    </div>
  )
}
