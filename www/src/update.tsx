import { useEffect, useState } from 'preact/hooks'
import { flush } from './screen/address'
import { takeOver, whenUpdated } from './base/offline'
import { standsIn } from './base/start-watch'
import { say } from './base/words'

/** Tells of a new version, which waits until the reader wants it, or of one that did not start. */
export function Update() {
  const [ready, setReady] = useState(false)
  const [before] = useState(standsIn)
  useEffect(() => whenUpdated(() => setReady(true)), [])
  return (
    <div role="status">
      {before && !ready && <p class="notice">{say('update-failed')}</p>}
      {ready && (
        <p class="notice update">
          <span>{say('update')}</span>
          <button
            type="button"
            class="chip"
            onClick={() => {
              flush()
              takeOver()
            }}
          >
            {say('update-take')}
          </button>
        </p>
      )}
    </div>
  )
}
