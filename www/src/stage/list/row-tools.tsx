import { say } from '../../base/words'
import { getProject, useProject } from '../show/project'
import { copyRows } from './copy-rows'
import { addRow, deleteRows, duplicateRows, joinPair, lineOf, makePair, moveRows } from './deeds'
import { getList, moveTo, putList, tell, useList } from './list-state'
import { targets } from './rows'

/** What is done to rows: to those that are chosen, else to the one with the cursor. */
export function RowTools({ narrow }: { readonly narrow: boolean }) {
  const count = useList(({ chosen }) => chosen.size)
  const choosing = useList(state => state.choosing)
  const here = useList(({ cursor }) => cursor !== null)
  const any = useProject(({ show }) => show.lines.length > 0)
  const ready = any && (narrow ? count > 0 : here || count > 0)
  const buttons: readonly (readonly [name: string, deed: () => void, ready: boolean])[] = [
    ['duplicate', duplicate, ready],
    ['up', () => move(-1), ready],
    ['down', () => move(1), ready],
    [count === 2 ? 'join-pair' : 'make-pair', pair, ready && count <= 2],
    ['copy', () => void copyRows(targets()), ready],
    ['delete', remove, ready],
  ]
  return (
    <div class="tools list-deeds" role="group" aria-label={say('stage-list-tools')}>
      <button type="button" class="chip" onClick={add}>
        {say('stage-list-add')}
      </button>
      {narrow && (
        <button type="button" class="chip" aria-pressed={choosing} onClick={choose}>
          {say('stage-list-choosing')}
        </button>
      )}
      {(!narrow || choosing) &&
        buttons.map(([name, deed, ready]) => (
          <button key={name} type="button" class="chip" disabled={!ready} onClick={deed}>
            {say(`stage-list-${name}`)}
          </button>
        ))}
      {any && (!narrow || !choosing) && <OnlyMissing />}
      {count > 0 && <span>{say('stage-list-chosen', { count: `${count}` })}</span>}
    </div>
  )
}

/** Leaves the lines that need something. */
function OnlyMissing() {
  const missing = useList(state => state.missing)
  return (
    <button type="button" class="chip" aria-pressed={missing} onClick={() => putList({ missing: !missing })}>
      {say('stage-list-missing')}
    </button>
  )
}

function add(): void {
  const { chosen, cursor } = getList()
  const { show } = getProject()
  const after = chosen.size === 0 && cursor !== null && lineOf(show, cursor.line) !== undefined ? cursor.line : null
  const line = addRow(after)
  const narrow = !matchMedia('(min-width: 48rem)').matches
  moveTo({ line, column: 'name' }, { chosen: new Set(), open: narrow || getList().open })
  tell(say('stage-list-added'))
}

function choose(): void {
  putList({ choosing: !getList().choosing, chosen: new Set() })
}

function duplicate(): void {
  const copies = duplicateRows(targets())
  const [line] = copies
  if (line !== undefined) moveTo({ line, column: 'name' }, { chosen: new Set(copies.length > 1 ? copies : []) })
  tell(say('stage-list-duplicated', { count: `${copies.length}` }))
}

function move(by: -1 | 1): void {
  const ids = targets()
  const there = moveRows(ids, by)
  const place = getProject().show.lines.findIndex(({ id }) => id === ids[0]) + 1
  tell(there ? say('stage-list-moved', { place: `${place}` }) : say('stage-list-at-edge'))
}

function pair(): void {
  const [one, other] = targets()
  if (one === undefined) return
  if (other !== undefined) joinPair(one, other)
  else makePair(one)
  tell(say('stage-list-paired'))
}

function remove(): void {
  const ids = targets()
  const { lines } = getProject().show
  const at = lines.findIndex(({ id }) => id === ids[0])
  deleteRows(ids)
  const left = getProject().show.lines
  const line = (left[at] ?? left.at(-1))?.id
  if (line !== undefined) moveTo({ line, column: getList().cursor?.column ?? 'name' }, { chosen: new Set() })
  else putList({ cursor: null, chosen: new Set(), open: false })
  tell(say('stage-list-deleted', { count: `${ids.length}` }))
}
