import { useEffect, useState } from 'preact/hooks'
import { flush } from './screen/address'
import { takeOver, whenUpdated } from './offline'
import { say } from './base/words'

/** Tells of a new version, which waits until the reader wants it. */
export function Update() {
  const [ready, setReady] = useState(false)
  useEffect(() => whenUpdated(() => setReady(true)), [])
  return (
    <div role="status">
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
