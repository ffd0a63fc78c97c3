import { useCallback, useState } from 'preact/hooks'
import { say } from '../../base/words'
import { getProject, undo, useProject, type Step } from './project'

/** What was done last in a view, until something else is. */
export interface Done {
  readonly text: string
  readonly step: Step | undefined
}

/** Notes what was just done, to be told with the way to undo it. */
export function useDone(): [Done | null, (text: string) => void] {
  const [done, setDone] = useState<Done | null>(null)
  const note = useCallback((text: string) => setDone({ text, step: getProject().done.at(-1) }), [])
  return [done, note]
}

export function DoneLine({ done }: { readonly done: Done | null }) {
  const stands = useProject(project => done !== null && project.done.at(-1) === done.step)
  return (
    <div class="done-line">
      <p role="status">{stands && done?.text}</p>
      {stands && done?.step !== undefined && (
        <button type="button" class="chip" onClick={undo}>
          {say('undo')}
        </button>
      )}
    </div>
  )
}
