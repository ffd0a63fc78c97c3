import { say } from '../../base/words'
import { useDraft } from './draft'

/** What is wrong with a step; without one, with the lesson as a whole. */
export function Flaws({ step = null }: { readonly step?: number | null }) {
  const flaws = useDraft(({ read }) => read.flaws)
  const own = flaws.filter(flaw => flaw.step === step)
  return (
    <div role="status">
      {own.length > 0 && (
        <div class="notice edit-flaws">
          <h3>{say('lesson-edit-flaws')}</h3>
          <ul>
            {own.map(({ text }) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
    </div>
  )
}
