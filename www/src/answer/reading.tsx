import type { Reading, ReadingSpread, Verdict } from '../../generated/contract'
import { memo } from '../base/memo'
import { beginBackwards } from './ask-backwards'
import { BecauseView } from './formula'
import { CopyValue } from '../base/copy-value'
import { TermName } from '../term/term-name'
import { say } from '../base/words'

interface Properties {
  readonly reading: Reading
  readonly lead?: boolean
  /** What it is for, where it is an answer in words. */
  readonly subject?: string | null
  readonly spread?: ReadingSpread | undefined
}

/** One number of an answer with what to make of it. */
export const ReadingView = memo(({ reading, lead = false, subject = null, spread }: Properties) => {
  const { id, name, value, text, exact, verdict, because } = reading
  return (
    <div
      class={lead ? 'reading lead' : 'reading'}
      data-reading={id}
      data-value={value}
      // Without a number there is no button in it that could take the focus back.
      tabIndex={value === null ? -1 : undefined}
    >
      <dt>{subject === null ? <TermName name={name} /> : `${subject}:`}</dt>
      <dd>
        <span class={value === null ? 'value in-words' : 'value'}>
          {value === null ? <bdi>{text}</bdi> : <CopyValue text={text} exact={exact ?? text} />}
          {value !== null && <Ask id={id} name={name} />}
        </span>
        {verdict !== null && <VerdictView verdict={verdict} />}
        {because !== null && <BecauseView because={because} />}
        {spread && <SpreadView spread={spread} />}
      </dd>
    </div>
  )
})

/** Between which numbers tolerances move it; nothing where they do not. */
export function SpreadView({ spread: { text, worst } }: { readonly spread: ReadingSpread }) {
  if (text === '') return null
  return (
    <span class="spread">
      <span>
        {say('spread-usual')} <bdi>{text}</bdi>
      </span>
      <span>
        {say('spread-worst')} <bdi>{worst}</bdi>
      </span>
    </span>
  )
}

/** Apart from the number, which changes far more often. */
const Ask = memo(({ id, name }: { readonly id: string; readonly name: string }) => (
  <button
    type="button"
    class="ask"
    aria-label={say('backwards-ask', { reading: name })}
    title={say('backwards')}
    onClick={event => beginBackwards(id, event.currentTarget)}
  >
    <svg viewBox="0 0 24 24" aria-hidden="true">
      <path d="M12 5a7 7 0 1 0 0 14 7 7 0 0 0 0-14M12 2v6M12 16v6M2 12h6M16 12h6" />
    </svg>
  </button>
))

// Each tone has its own shape, so that it is told without its colour.
const SHAPES = {
  fine: 'M2 8.5 6.5 13 14 3.5',
  watch: 'M8 2 15 14H1ZM8 6v4M8 12v.1',
  trouble: 'M5 1h6l4 4v6l-4 4H5l-4-4V5ZM5.5 5.5l5 5M10.5 5.5l-5 5',
} as const

export const VerdictView = memo(({ verdict: { tone, text } }: { readonly verdict: Verdict }) => (
  <span class="verdict" data-tone={tone}>
    <svg viewBox="0 0 16 16" role="img" aria-label={say(`tone-${tone}`)}>
      <path d={SHAPES[tone]} />
    </svg>
    {text}
  </span>
))
