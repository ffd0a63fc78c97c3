import { useEffect, useState } from 'preact/hooks'
import { whenRefused } from './base/kept'
import { say } from './base/words'

/** Says once that this browser keeps no choice, when the first one is made. */
export function RefusedNotice() {
  const [said, setSaid] = useState<'not yet' | 'now' | 'before'>('not yet')
  useEffect(() => whenRefused(() => setSaid(said => (said === 'not yet' ? 'now' : said))), [])
  return (
    <div role="status">
      {said === 'now' && (
        <p class="notice">
          <span>{say('kept-refused')}</span>
          <button
            type="button"
            class="chip"
            onClick={() => {
              setSaid('before')
              document.querySelector('main')?.focus()
            }}
          >
            {say('close')}
          </button>
        </p>
      )}
    </div>
  )
}
