import { useEffect, useState } from 'preact/hooks'
import { damaged, dropDamaged, whenDamaged } from './base/kept'
import { say } from './base/words'
import { Box } from './notice'
import { noteBeginning, unreadBeginning } from './screen/saved-page'

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

/** What a saved page was to begin with and nobody can read, with its text. */
export function BeginningNotice() {
  const [text, setText] = useState(unreadBeginning)
  if (text === null) return null
  const letGo = () => {
    noteBeginning({ unread: undefined })
    setText(null)
  }
  return <Box message={say('saved-unread')} pieces={[text]} onForget={letGo} />
}
