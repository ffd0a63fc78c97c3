import { say } from '../../base/words'
import { useKeeping } from './keeping'
import { OpenFile } from './open-file'
import { openKept } from './opening'
import type { Entry } from './shelf'
import { beginEmpty, beginExample, duplicate, nameOf, putBack, remove } from './shows'
import { when } from './when'

/** The shows that this device keeps. */
export function ShowList() {
  const entries = useKeeping(keeping => keeping.entries)
  const open = useKeeping(keeping => keeping.id)
  const [here, deleted] = [true, false].map(there => entries.filter(entry => (entry.deleted === null) === there))
  return (
    <>
      <ul class="show-list">
        {here?.map(entry => (
          <One key={entry.id} entry={entry} open={entry.id === open} />
        ))}
      </ul>
      <div class="tools">
        <button type="button" class="chip" onClick={() => void beginEmpty()}>
          {say('stage-new')}
        </button>
        <button type="button" class="chip" onClick={() => void duplicate()}>
          {say('stage-duplicate')}
        </button>
        <OpenFile />
        <button type="button" class="chip" onClick={() => void beginExample()}>
          {say('stage-first-example')}
        </button>
      </div>
      {deleted !== undefined && deleted.length > 0 && <Deleted entries={deleted} />}
    </>
  )
}

function One({ entry, open }: { readonly entry: Entry; readonly open: boolean }) {
  const name = nameOf(entry.name)
  return (
    <li data-show={entry.id} data-open={open}>
      <Name entry={entry} note={open ? say('stage-is-open') : null} />
      <div class="tools">
        {!open && (
          <button
            type="button"
            class="chip"
            aria-label={say('stage-open-named', { name })}
            onClick={() => void openKept(entry.id)}
          >
            {say('stage-open')}
          </button>
        )}
        <button
          type="button"
          class="chip"
          aria-label={say('stage-delete-named', { name })}
          onClick={() => void remove(entry)}
        >
          {say('stage-delete')}
        </button>
      </div>
    </li>
  )
}

function Name({ entry, note }: { readonly entry: Entry; readonly note: string | null }) {
  return (
    <div>
      <bdi>{nameOf(entry.name)}</bdi>
      {note !== null && <strong> {note}</strong>}
      <p class="hint">{say('stage-entry', { count: `${entry.lines}`, when: when(entry.changed) })}</p>
    </div>
  )
}

function Deleted({ entries }: { readonly entries: readonly Entry[] }) {
  return (
    <div class="deleted">
      <h3>{say('stage-deleted-shows')}</h3>
      <ul class="show-list">
        {entries.map(entry => (
          <li key={entry.id} data-deleted={entry.id}>
            <Name entry={entry} note={null} />
            <button
              type="button"
              class="chip"
              aria-label={say('stage-put-back-named', { name: nameOf(entry.name) })}
              onClick={() => void putBack(entry)}
            >
              {say('stage-put-back-now')}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
