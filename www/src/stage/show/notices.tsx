import { Copy } from '../../base/copy'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { dismiss, list, putKeeping, useKeeping, type Notice } from './keeping'
import { dropLost, type Lost } from './shelf'
import { SomeLines } from './some-lines'
import { when } from './when'

/** What the reader has to know of the show, and texts that could not be read. */
export function Notices() {
  const notices = useKeeping(keeping => keeping.notices)
  const lost = useKeeping(keeping => keeping.lost)
  return (
    <>
      {notices.map(notice => (
        <One key={notice.key} notice={notice} />
      ))}
      {lost.length > 0 && <LostTexts lost={lost} />}
    </>
  )
}

function One({ notice: { key, text, lines = [], act } }: { readonly notice: Notice }) {
  return (
    <div class="notice" role="alert" data-notice={key}>
      <p>{text}</p>
      <SomeLines lines={lines} />
      <div class="tools">
        {act !== undefined && (
          <button
            type="button"
            class="chip"
            onClick={() => {
              dismiss(key)
              act.run()
            }}
          >
            {act.name}
          </button>
        )}
        <button type="button" class="chip" onClick={() => dismiss(key)}>
          {say('stage-dismiss')}
        </button>
      </div>
    </div>
  )
}

function LostTexts({ lost }: { readonly lost: readonly Lost[] }) {
  return (
    <details class="notice" data-notice="lost">
      <summary>{say('stage-lost', { count: `${lost.length}` })}</summary>
      <ul class="show-list">
        {lost.map(({ key, at, text }) => (
          <li key={key}>
            <span>{when(at)}</span>
            <div class="tools">
              <Copy text={() => text} name={say('notice-copy')} />
              <Save
                name={say('stage-lost-save')}
                content={() => text}
                type="text/plain"
                file={() => say('stage-lost-file')}
              />
              <button type="button" class="chip" onClick={() => void drop(key, lost)}>
                {say('forget')}
              </button>
            </div>
          </li>
        ))}
      </ul>
    </details>
  )
}

async function drop(key: string, lost: readonly Lost[]): Promise<void> {
  putKeeping({ lost: lost.filter(other => other.key !== key) })
  await dropLost(key)
    .then(list)
    .catch(() => undefined)
}
