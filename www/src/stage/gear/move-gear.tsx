import { useState } from 'preact/hooks'
import type { Gear } from '../../../generated/contract'
import { ChooseFile } from '../../base/choose-file'
import { fileName } from '../../base/download'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { OF_SHOWS } from '../show/open-file'
import { edit, freeId, getProject } from '../show/project'
import { fileIn } from '../show/read-file'
import { SomeLines } from '../show/some-lines'

/** Gear as a file of its own, and gear from the file of another show. */
export function MoveGear({ onDone }: { readonly onDone: (text: string) => void }) {
  const [wrong, setWrong] = useState<readonly string[]>([])
  const gear = () => {
    const { version, gear, mains } = getProject().show
    return JSON.stringify({ version, mains, gear }, null, 2)
  }
  const take = async (file: File) => {
    const { taken, known, flaws } = await read(file)
    setWrong(flaws)
    if (taken.length === 0 && known === 0) return
    if (taken.length > 0) edit(say('stage-gear-took', { count: `${taken.length}` }), draft => addTo(draft.gear, taken))
    onDone(say('stage-gear-taken', { count: `${taken.length}`, known: `${known}` }))
  }
  return (
    <section class="move-gear" aria-labelledby="move-gear">
      <h3 id="move-gear">{say('stage-gear-move')}</h3>
      <div class="tools">
        <ChooseFile name={say('stage-gear-take')} accept={OF_SHOWS} onFile={file => void take(file)} />
        <Save
          name={say('stage-gear-save')}
          content={gear}
          type="application/json"
          file={() => fileName(['gear'], 'json')}
        />
      </div>
      <div role="status">
        {wrong.length > 0 && (
          <div class="problem">
            <SomeLines lines={wrong} />
          </div>
        )}
      </div>
    </section>
  )
}

interface Taken {
  readonly taken: readonly Gear[]
  /** How many are in the drawer as they are. */
  readonly known: number
  readonly flaws: readonly string[]
}

async function read(file: File): Promise<Taken> {
  const parsed = fileIn(await file.text())
  if (parsed === undefined) return { taken: [], known: 0, flaws: [say('stage-gear-unread', { file: file.name })] }
  const { show, flaws } = await askStage('stage_read', parsed, getState().settings)
  const texts = flaws.filter(({ list }) => show === null || list === 'gear').map(({ text }) => text)
  const found = show?.gear ?? []
  if (show !== null && found.length === 0) texts.push(say('stage-gear-nothing', { file: file.name }))
  const here = getProject().show.gear
  const taken = found.filter(one => !here.some(other => isSame(one, other)))
  return { taken, known: found.length - taken.length, flaws: texts }
}

/** Whether two are the same but for how the files name them, count them and speak of them. */
function isSame(one: Gear, other: Gear): boolean {
  const texts = ({ values }: Gear) => JSON.stringify(Object.entries(values).sort(([a], [b]) => (a < b ? -1 : 1)))
  return one.name === other.name && one.kind === other.kind && texts(one) === texts(other)
}

function addTo(gear: Gear[], taken: readonly Gear[]): void {
  for (const one of taken) gear.push({ ...one, id: freeId(gear, one.id) })
}
