import { useEffect, useState } from 'preact/hooks'
import { howKept, whenKeptChanges, type Kept } from '../base/offline'
import { say } from '../base/words'

/** Whether this copy opens without a network, and how to make it so. */
export function OfflineLine() {
  const [kept, setKept] = useState<Kept | null>(null)
  useEffect(() => {
    let gone = false
    const look = () => void howKept().then(kept => !gone && setKept(kept))
    look()
    const forget = whenKeptChanges(look)
    return () => {
      gone = true
      forget()
    }
  }, [])
  return (
    <p class="offline hint" role="status" data-kept={kept ?? ''}>
      {kept !== null && say(`offline-${kept}`)}
    </p>
  )
}
