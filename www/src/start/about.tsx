import { useEffect, useState } from 'preact/hooks'
import { pieceOf } from '../base/piece'
import { say } from '../base/words'

declare const STAGEOHM_VERSION: string

const notices = pieceOf<string>('notices')

/** What this is, what it does with what is typed, and the notices of the libraries in it. */
export function About() {
  const [text, setText] = useState<string | null>(null)
  const [failed, fail] = useState(false)
  useEffect(() => {
    notices.want().then(setText, () => fail(true))
  }, [])
  return (
    <article class="about-page">
      <div class="intro">
        <h1 tabIndex={-1}>{say('about')}</h1>
        <p>{say('about-version', { version: STAGEOHM_VERSION })}</p>
      </div>
      {(['about-nothing-sent', 'about-kept', 'about-numbers', 'about-inspect', 'about-licence'] as const).map(key => (
        <p key={key}>{say(key)}</p>
      ))}
      <h2>{say('about-notices')}</h2>
      {failed && <p class="hint">{say('about-notices-missing')}</p>}
      {text !== null && (
        <pre class="notices" tabIndex={0} aria-label={say('about-notices')}>
          {text}
        </pre>
      )}
    </article>
  )
}
