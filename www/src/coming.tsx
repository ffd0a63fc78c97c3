import { say } from './base/words'
import { bringWhole } from './screen/opening'
import { useStore } from './screen/store'

/** In the place of what the whole engine shows, until that has come. */
export function Coming() {
  const missing = useStore(({ whole }) => whole === 'missing')
  return (
    <div class="notice" role="status">
      {missing ? (
        <>
          <p>{say('whole-missing')}</p>
          <button type="button" class="chip" onClick={() => void bringWhole()}>
            {say('try-again')}
          </button>
        </>
      ) : (
        <p>{say('whole-coming')}</p>
      )}
    </div>
  )
}
