import { say } from '../../base/words'
import { redo, undo, useProject } from './project'

/** The name of the show, and what is done with all of it. */
export function ShowBar() {
  const [undoable, redoable] = [
    useProject(({ done }) => done.length > 0),
    useProject(({ undone }) => undone.length > 0),
  ]
  return (
    <div class="tools">
      <button type="button" class="chip" disabled={!undoable} onClick={undo}>
        {say('undo')}
      </button>
      <button type="button" class="chip" disabled={!redoable} onClick={redo}>
        {say('redo')}
      </button>
    </div>
  )
}
