import { say } from '../../base/words'
import { beginEmpty, beginExample } from './shows'
import { OpenFile } from './open-file'

/** How to begin where there is no show yet. */
export function FirstShow() {
  return (
    <div class="first-show">
      <h2>{say('stage-first')}</h2>
      <div class="tools">
        <button type="button" class="chip" onClick={() => void beginEmpty()}>
          {say('stage-first-empty')}
          <span class="hint">{say('stage-first-empty-hint')}</span>
        </button>
        <button type="button" class="chip" onClick={() => void beginExample()}>
          {say('stage-first-example')}
          <span class="hint">{say('stage-first-example-hint')}</span>
        </button>
        <OpenFile hint={say('stage-open-file-hint')} />
      </div>
    </div>
  )
}
