import { useEffect, useState } from 'preact/hooks'
import { flush } from './address'
import { takeOver, whenUpdated } from './offline'
import { standsIn } from './start'
import { say } from './words'

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
