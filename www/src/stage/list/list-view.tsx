import { useEffect, useMemo } from 'preact/hooks'
import type { InputLine, Row } from '../../../generated/contract'
import { ByHand } from '../../base/by-hand'
import { say } from '../../base/words'
import { ListTools } from '../packing/list-tools'
import { useProject } from '../show/project'
import { useMedia } from '../../base/use-media'
import { comeBack } from './back'
import { Cards } from './cards'
import { titleOf, type Names } from './columns'
import { Grid } from './grid'
import { moveTo, NOTHING_TOLD, putList, useList, type Message } from './list-state'
import { paste } from './paste'
import { RowPanel } from './row-panel'
import { RowTools } from './row-tools'
import { shownLines, worstOf } from './rows'
import { useRows } from './shared-rows'
import { GRADES, gradeOf, MARKS, Verdict } from './verdict'

/** The input list: a grid where there is room, else a list; and the row that is open. */
export function ListView() {
  const lines = useProject(({ show }) => show.lines)
  const rows = useRows()
  const names = useNames()
  const missing = useList(state => state.missing)
  const cursor = useList(({ cursor }) => cursor?.line)
  const open = useList(state => state.open)
  const narrow = useMedia(NARROW)
  const alone = useMedia(ALONE)
  const any = lines.length > 0
  useEffect(() => {
    if (any) comeBack()
  }, [any])
  usePaste()
  const shown = shownLines(lines, rows, missing, cursor)
  const place = lines.findIndex(({ id }) => id === cursor)
  const line = lines[place]
  const panel = open && line !== undefined ? { line, place, row: rows.get(line.id), names } : null
  return (
    <div class="input-list" data-open={panel !== null} onFocusIn={intoView}>
      <h2 class="unseen">{say('stage-view-list')}</h2>
      <Messages />
      {alone && panel !== null ? (
        <RowPanel {...panel} alone />
      ) : (
        <>
          {any && <Count lines={lines} rows={rows} />}
          <RowTools narrow={narrow} />
          <ListTools />
          {lines.length === 0 && <p class="hint">{say('stage-list-empty')}</p>}
          {narrow ? (
            <Cards lines={shown} rows={rows} names={names} />
          ) : (
            <div class="list-sides">
              {lines.length > 0 && <Grid lines={shown} rows={rows} names={names} />}
              {panel !== null && <RowPanel {...panel} alone={false} />}
            </div>
          )}
          {!narrow && (
            <p class="hint" id="grid-keys">
              {say('stage-list-keys')}
            </p>
          )}
        </>
      )}
    </div>
  )
}

/** A strip of buttons goes on beyond the edge of a phone; the browser is content with half a button. */
function intoView({ target }: FocusEvent): void {
  if (target instanceof Element && target.closest('.tools') !== null) {
    target.scrollIntoView({ block: 'nearest', inline: 'nearest' })
  }
}

function useNames(): Names {
  const gear = useProject(({ show }) => show.gear)
  const equipment = useProject(({ show }) => show.equipment)
  const power = useProject(({ show }) => show.power)
  return useMemo(() => ({ gear, equipment, power }), [gear, equipment, power])
}

const NARROW = '(max-width: 47.99rem)'
/** Here a row has no room beside the grid, and takes its place. */
const ALONE = '(max-width: 71.99rem)'

/** What is pasted beside an input is a table for the list, whether it has a row yet or not. */
function usePaste(): void {
  useEffect(() => {
    const pasted = (event: ClipboardEvent) => {
      const { target, clipboardData } = event
      if (target instanceof Element && target.closest('input, textarea, select') !== null) return
      event.preventDefault()
      void paste(clipboardData?.getData('text/plain') ?? '')
    }
    document.addEventListener('paste', pasted)
    return () => document.removeEventListener('paste', pasted)
  }, [])
}

/** What was done last, and what of it did not work. */
function Messages() {
  const { text, problems } = useTold()
  const byHand = useList(state => state.byHand)
  return (
    <>
      <p role="status" class="list-told">
        {text}
      </p>
      {problems.length > 0 && (
        <div class="notice list-problems">
          <p>{say('stage-list-problems', { count: `${problems.length}` })}</p>
          <ul>
            {problems.slice(0, MOST_TOLD).map((problem, place) => (
              <li key={place}>{problem}</li>
            ))}
          </ul>
          {problems.length > MOST_TOLD && (
            <p>{say('stage-list-problems-more', { count: `${problems.length - MOST_TOLD}` })}</p>
          )}
          <button type="button" class="chip" onClick={() => putList({ told: NOTHING_TOLD })}>
            {say('stage-list-problems-read')}
          </button>
        </div>
      )}
      {byHand !== null && <ByHand text={byHand} />}
    </>
  )
}

/** What was told last, unless it has been undone since. */
function useTold(): Message {
  const told = useList(state => state.told)
  const isUndone = useProject(({ done }) => told.after !== undefined && !done.includes(told.after))
  return isUndone ? NOTHING_TOLD : told
}

/** So many problems of a paste are listed. */
const MOST_TOLD = 30

interface CountProperties {
  readonly lines: readonly InputLine[]
  readonly rows: ReadonlyMap<string, Row>
}

function Count({ lines, rows }: CountProperties) {
  const worst = worstOf(lines, rows)
  const counts = new Map<string, number>()
  for (const line of lines) {
    const grade = gradeOf(line, rows.get(line.id))
    counts.set(grade, (counts.get(grade) ?? 0) + 1)
  }
  return (
    <div class="list-count">
      <p>
        <b>{say('stage-list-count', { count: `${lines.length}` })}</b>
        {GRADES.filter(grade => counts.has(grade)).map(grade => (
          <span key={grade} data-grade={grade}>
            <span aria-hidden="true">{MARKS[grade]}</span> {say(`stage-grade-${grade}`)}: {counts.get(grade)}
          </span>
        ))}
      </p>
      {worst !== undefined && (
        <button
          type="button"
          class="chip list-worst"
          onClick={() => moveTo({ line: worst.id, column: 'verdict' }, { open: true })}
        >
          <b>{say('stage-list-worst', { row: titleOf(worst) })}</b>
          <Verdict line={worst} row={rows.get(worst.id)} />
        </button>
      )}
    </div>
  )
}
