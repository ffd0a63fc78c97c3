import { useState } from 'preact/hooks'
import type { Description, Reading } from '../generated/contract'
import styles from '../styles/compact.css'
import { wear } from './base/wear'
import { Stale } from './answer/answer'
import { Compare } from './answer/compare'
import { Further } from './answer/further'
import { GLANCED } from './answer/glanced'
import { Ranking } from './answer/ranking'
import { ReadingView } from './answer/reading'
import { Sources } from './answer/sources'
import { Tolerances } from './answer/tolerances'
import { Working } from './answer/working'
import { subjectOf } from './screen/subject'
import { firstEnd, Warnings } from './base/warnings'
import { say } from './base/words'
import { Field } from './fields/field'
import { Fixed } from './fields/fixed'
import { Steps } from './fields/steps'
import { WholePage } from './header'
import { HearIt } from './hear-it'
import { Intro } from './intro'
import { Plots } from './plot/plots'
import { Rig } from './rig/rig'
import { isFixed, type Embed } from './screen/embed'
import { startAgain } from './screen/screen'
import { isChanged } from './screen/shown'
import { useStore } from './screen/store'

// With the script, so that no other screen waits for them.
wear(styles)

interface Properties {
  readonly description: Description
  readonly embed: Embed
}

/**
 * A calculator in a frame of few pixels: what may be changed, one answer and one plot;
 * what can hurt someone; all else is folded.
 */
export function Compact({ description, embed }: Properties) {
  const answered = useStore(({ good }) => good !== null)
  const { fields } = description
  // Those of the question come first here too.
  const shown = [
    ...description.first.flatMap(id => fields.find(field => field.id === id) ?? []),
    ...fields.filter(({ id }) => !description.first.includes(id)),
  ].filter(({ id }) => !embed.hidden.includes(id))
  const open = shown.filter(({ id }) => !isFixed(embed, id))
  const locked = shown.filter(({ id }) => isFixed(embed, id))
  return (
    <article class="calculator compact" data-calculator={description.id} data-fixed="true">
      <Intro description={description}>
        <WholePage />
      </Intro>
      {shown.length > 0 && (
        <section class="question" aria-label={say('question')}>
          {open.map(field => (
            <Field key={field.id} field={field} />
          ))}
          {locked.map(field => (
            <Field key={field.id} field={field} />
          ))}
        </section>
      )}
      <Lead description={description} embed={embed} />
      {answered && (
        <div class="rest">
          <Plots description={description} part="first" />
        </div>
      )}
      {answered && embed.working && (
        <div class="rest">
          <Working />
        </div>
      )}
      <div class="foot">
        {answered && <Folded description={description} embed={embed} />}
        {open.length > 0 && <WayBack />}
      </div>
    </article>
  )
}

/** The one answer: a reading, or what comes first where ways are put in order. */
function Lead({ description, embed }: Properties) {
  const reading = useStore(({ lead }) => lead?.report.headline[0])
  const subject = useStore(({ lead }) => lead && subjectOf(description, lead.report, embed))
  const cautions = useStore(({ good }) => good?.report.cautions) ?? []
  const stale = useStore(({ answer }) => answer?.report === null)
  const wrong = useStore(({ answer }) => description.fields.find(({ id }) => answer?.fields[id]?.problem))
  const hidden = wrong !== undefined && embed.hidden.includes(wrong.id)
  return (
    <section class="answer" aria-labelledby="answer" data-stale={stale}>
      <h2 id="answer" class="unseen" tabIndex={-1}>
        {say('answer')}
      </h2>
      <div class="outcome">
        {reading !== undefined && (
          <dl class="headline" id={GLANCED}>
            <ReadingView reading={{ ...reading, because: null }} lead subject={subject} />
          </dl>
        )}
        {stale && <Stale last={reading !== undefined} problem={hidden ? undefined : wrong} />}
        {hidden && <p class="stale">{say('frame-unfit')}</p>}
      </div>
      <Careful texts={cautions} />
    </section>
  )
}

/** What can hurt someone, the first sentence of each in sight, and all of it unfolded. */
function Careful({ texts }: { readonly texts: readonly string[] }) {
  if (texts.length === 0) return null
  return (
    <div class="cautions">
      <details class="mind" data-caution>
        <summary>
          <strong>{say('caution')}</strong> {texts.map(text => text.slice(0, firstEnd(text))).join(' ')}
        </summary>
        {texts
          .filter(text => text.length > firstEnd(text))
          .map(text => (
            <p key={text}>{text}</p>
          ))}
      </details>
    </div>
  )
}

/** Back to what the lesson began with, or by a step. */
function WayBack() {
  const changed = useStore(isChanged)
  return (
    <div class="way-back">
      <button
        type="button"
        class="chip"
        aria-label={say('reset-lesson')}
        disabled={!changed}
        onClick={() => startAgain()}
      >
        {say('reset')}
      </button>
      <Steps always />
    </div>
  )
}

const NONE: readonly Reading[] = []

/** All else there is to it. */
function Folded({ description, embed }: Properties) {
  const [open, setOpen] = useState(false)
  const headline = useStore(({ good }) => good?.report.headline) ?? NONE
  const warnings = useStore(({ good }) => good?.report.warnings) ?? []
  return (
    <details class="folded" open={open} onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>{say('frame-more')}</h2>
      </summary>
      {open && (
        <div class="rest">
          <Fixed embed={embed} description={description} />
          {headline.length > 0 && (
            <dl class="headline">
              {headline.map(reading => (
                <ReadingView key={reading.id} reading={reading} />
              ))}
            </dl>
          )}
          <Warnings texts={warnings} />
          <Ranking />
          <Rig />
          <Plots description={description} part="others" />
          <HearIt key={description.id} description={description} />
          {description.tolerances && <Tolerances />}
          <Compare description={description} />
          <Further />
          {!embed.working && <Working />}
          <Sources />
        </div>
      )}
    </details>
  )
}
