import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { getProject } from '../show/project'
import { putList, tell } from './list-state'

/** Copies rows as a table for a spreadsheet. */
export async function copyRows(ids: readonly string[]): Promise<void> {
  const { show } = getProject()
  const lines = show.lines.filter(({ id }) => ids.includes(id))
  const text = await askStage(
    'stage_write_lines',
    { ...show, lines },
    { separator: 'tab', settings: getState().settings },
  )
  try {
    await navigator.clipboard.writeText(text)
    tell(say('stage-list-copied', { count: `${lines.length}` }))
  } catch {
    // Where the browser refuses, it is shown to be copied by hand.
    putList({ byHand: text })
  }
}
