import { say } from '../../base/words'

/** So many are told at once. */
const FIRST = 3
/** So many at most; the text that is kept has all. */
const MOST = 200

/** What is told line by line: the first few, and the others once somebody asks. */
export function SomeLines({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0) return null
  // One more line takes no more room than to tell of it.
  const first = lines.length <= FIRST + 1 ? lines : lines.slice(0, FIRST)
  const more = lines.slice(first.length)
  return (
    <div class="notice-lines">
      <Lines lines={first} />
      {more.length > 0 && (
        <details>
          <summary>{say('stage-more-lines', { count: `${more.length}` })}</summary>
          <Lines lines={more.slice(0, MOST)} />
          {more.length > MOST && <p>{say('stage-most-lines', { count: `${more.length - MOST}` })}</p>}
        </details>
      )}
    </div>
  )
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  return (
    <ul>
      {lines.map((line, place) => (
        <li key={place}>{line}</li>
      ))}
    </ul>
  )
}
