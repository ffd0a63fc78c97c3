import { useCallback, useEffect, useRef, useState } from 'preact/hooks'
import type { Proposal, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { edit, getProject, useProject } from '../show/project'
import { gearName, lineName } from './names'
import { changesOf, isSameQuestion, missedNow, take, type Change } from './proposed'

interface Asked {
  readonly show: Show
  /** Nothing while it is worked out. */
  readonly proposal: Proposal | null
  readonly failed: boolean
}

/** What boxes and pads of the drawer would do best, to be taken or left. */
export function Propose() {
  const [asked, setAsked] = useState<Asked | null>(null)
  const last = useRef<Show | null>(null)
  const ask = useCallback(() => {
    const { show } = getProject()
    last.current = show
    setAsked({ show, proposal: null, failed: false })
    const put = (proposal: Proposal | null) => {
      if (last.current === show) setAsked({ show, proposal, failed: proposal === null })
    }
    askStage('stage_propose', show).then(put, () => put(null))
  }, [])
  useEffect(ask, [ask])
  const show = useProject(project => project.show)
  const stale = asked !== null && !isSameQuestion(asked.show, show)
  const proposal = asked?.proposal ?? null
  return (
    <>
      <p role="status" class="hint">
        {asked?.failed ? say('stage-propose-failed') : proposal === null ? say('stage-propose-busy') : ''}
        {stale && say('stage-propose-stale')}
      </p>
      {(stale || asked?.failed) && (
        <button type="button" class="chip" onClick={ask}>
          {say('stage-propose-again')}
        </button>
      )}
      {proposal !== null && !stale && <Proposed proposal={proposal} show={show} />}
    </>
  )
}

interface Properties {
  readonly proposal: Proposal
  readonly show: Show
}

function Proposed({ proposal, show }: Properties) {
  const [told, tell] = useState('')
  const changes = changesOf(show, proposal)
  const put = (taken: readonly Change[]) => {
    const [one] = taken
    const what =
      taken.length === 1 && one !== undefined
        ? say('stage-propose-did-line', { line: lineName(one.line) })
        : say('stage-propose-did', { count: `${taken.length}` })
    edit(what, draft => take(draft, taken))
    tell(say('stage-propose-taken', { what }))
  }
  return (
    <>
      <Summary proposal={proposal} show={show} />
      <div class="tools">
        {changes.length > 0 && (
          <button type="button" class="chip" onClick={() => put(changes)}>
            {say('stage-propose-take-all', { count: `${changes.length}` })}
          </button>
        )}
        <span role="status">{told}</span>
      </div>
      <ul class="proposed">
        {changes.map(change => (
          <OneChange key={change.line.id} show={show} change={change} onTake={() => put([change])} />
        ))}
      </ul>
    </>
  )
}

/** The proposal in numbers, and what the drawer lacks. */
function Summary({ proposal, show }: Properties) {
  const { missed, parts, proved, missing, missed_with_all } = proposal
  const now = useProject(({ rows }) => missedNow(rows))
  const unsolved = proposal.lines.filter(({ unsolved }) => unsolved).length
  const changed = changesOf(show, proposal).length
  const lacks = missing.map(({ name, more }) => say('stage-so-many', { name, count: `${more}` })).join(', ')
  return (
    <>
      <dl class="counts">
        <Count name={say('stage-propose-now')} count={now} />
        <Count name={say('stage-propose-then')} count={missed} />
        <Count name={say('stage-propose-parts')} count={parts} />
        <Count name={say('stage-propose-changes')} count={changed} />
      </dl>
      <p>{say(proved ? 'stage-propose-proved' : 'stage-propose-found')}</p>
      {lacks !== '' && (
        <p>
          <strong>{say('stage-propose-lacks', { parts: lacks })}</strong>{' '}
          {say('stage-propose-with-all', { missed: `${missed_with_all}` })}
        </p>
      )}
      {unsolved > 0 && <p>{say('stage-propose-unsolved', { count: `${unsolved}` })}</p>}
      {changed === 0 && <p>{say(show.lines.length === 0 ? 'stage-no-lines' : 'stage-propose-same')}</p>}
    </>
  )
}

function Count({ name, count }: { readonly name: string; readonly count: number }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{count}</dd>
    </div>
  )
}

interface ChangeProperties {
  readonly show: Show
  readonly change: Change
  readonly onTake: () => void
}

function OneChange({ show, change: { line, suggestion }, onTake }: ChangeProperties) {
  const row = useProject(({ rows }) => rows.get(line.id))
  const on = ({ di, pad }: { readonly di: string; readonly pad: string }) =>
    [di, pad].flatMap(id => (id === '' ? [] : [gearName(show, id)])).join(' + ') || say('stage-none-on-line')
  const kinds = suggestion.misses.map(id => row?.figures.find(({ reading }) => reading === id)?.kind ?? 'line')
  const misses = [...new Set(kinds)].map(kind => say(`stage-missed-${kind}`)).join(', ')
  return (
    <li data-line={line.id}>
      <div>
        <strong>{lineName(line)}</strong>
        <p>
          <span class="hint">{say('stage-propose-line-now')}</span> {on(line)}
        </p>
        <p>
          <span class="hint">{say('stage-propose-line-then')}</span> {on(suggestion)}
        </p>
        {misses !== '' && <p class="hint">{say('stage-propose-misses', { misses })}</p>}
      </div>
      <button type="button" class="chip" onClick={onTake}>
        {say('stage-propose-take')}
        <span class="unseen"> {lineName(line)}</span>
      </button>
    </li>
  )
}
