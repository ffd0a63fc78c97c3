import { useEffect, useState } from 'preact/hooks'
import { howKept, whenKeptChanges, type Kept } from '../base/offline'
import { say } from '../base/words'

/** Whether this copy opens without a network, and how to make it so. */
export function OfflineLine() {
  const [kept, setKept] = useState<Kept | null>(null)
  useEffect(() => {
    let last = 0
    // One that was asked before may be answered after.
    const look = () => {
      const asked = ++last
      void howKept().then(kept => asked === last && setKept(kept))
    }
    look()
    const forget = whenKeptChanges(look)
    return () => {
      last = -1
      forget()
    }
  }, [])
  return (
    <p class="offline hint" role="status" data-kept={kept ?? ''}>
      {kept !== null && say(`offline-${kept}`)}
    </p>
  )
}
