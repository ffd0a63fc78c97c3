import { useState } from 'preact/hooks'
import { takeEscape } from '../../base/escape'
import { say } from '../../base/words'

interface Properties {
  readonly name: string
  /** What in the show points to it, in words. */
  readonly users: () => readonly string[]
  readonly onDuplicate: () => void
  readonly onDelete: () => void
}

/** Duplicates a row or deletes it; what points to it is named first. */
export function RowTools({ name, users, onDuplicate, onDelete }: Properties) {
  const [asking, setAsking] = useState<readonly string[] | null>(null)
  const remove = () => {
    const found = users()
    if (found.length === 0) onDelete()
    else setAsking(found)
  }
  return (
    <div class="row-tools" onKeyDown={event => asking !== null && takeEscape(event) && setAsking(null)}>
      <div class="tools">
        <button
          type="button"
          class="chip"
          aria-label={say('stage-duplicate-named', { name })}
          title={say('stage-row-duplicate')}
          onClick={onDuplicate}
        >
          <span>{say('stage-row-duplicate')}</span>
          <Icon path="M9 9h11v11H9zM5 15H4V4h11v1" />
        </button>
        <button
          type="button"
          class="chip"
          aria-label={say('stage-row-delete-named', { name })}
          title={say('stage-row-delete')}
          aria-expanded={asking !== null}
          onClick={remove}
        >
          <span>{say('stage-row-delete')}</span>
          <Icon path="m6 6 12 12M18 6 6 18" />
        </button>
      </div>
      {asking !== null && (
        <div class="mind" role="alert">
          <p>{say('stage-used-by', { name, users: asking.join(', ') })}</p>
          <div class="tools">
            <button type="button" class="chip" onClick={onDelete}>
              {say('stage-delete-still')}
            </button>
            <button type="button" class="chip" onClick={() => setAsking(null)}>
              {say('stage-delete-not')}
            </button>
          </div>
        </div>
      )}
    </div>
  )
}

/** Stands for the word where there is no room for it. */
function Icon({ path }: { readonly path: string }) {
  return (
    <svg class="row-tool" viewBox="0 0 24 24" aria-hidden="true">
      <path d={path} />
    </svg>
  )
}
