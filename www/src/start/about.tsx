import { useEffect, useState } from 'preact/hooks'
import { runPart } from '../base/part'
import { say } from '../base/words'

declare const STAGEOHM_VERSION: string

/** What this is, what it does with what is typed, and the notices of the libraries in it. */
export function About() {
  const [notices, setNotices] = useState<string | null>(null)
  const [failed, fail] = useState(false)
  useEffect(() => {
    wanted().then(setNotices, () => fail(true))
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
      {notices !== null && (
        <pre class="notices" tabIndex={0} aria-label={say('about-notices')}>
          {notices}
        </pre>
      )}
    </article>
  )
}

async function wanted(): Promise<string> {
  await runPart('notices-source')
  return (globalThis as unknown as { readonly stageohmNotices: string }).stageohmNotices
}
