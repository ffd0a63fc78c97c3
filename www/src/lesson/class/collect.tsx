import { useEffect, useRef, useState } from 'preact/hooks'
import { ChooseFile } from '../../base/choose-file'
import { Save } from '../../base/save'
import { csvOf } from '../../base/csv'
import { fileName } from '../../base/download'
import { visible } from '../../base/visible'
import { say } from '../../base/words'
import * as address from '../../screen/address'
import { writeLesson } from '../../screen/link'
import { setState, useStore } from '../../screen/store'
import { COLLECT, LONGEST_UNPACKED, unpack, writeLessonAddress } from '../address'
import { titleOf } from '../title'
import { ChooseFiles } from './choose-files'
import { addHandedIn, handedIn, keepHandedIn, LARGEST, whenHandedInElsewhere, type HandedIn } from './handed-in'
import { addLesson, knownLessons } from './known-lessons'
import { collect, type Collected } from './mark-again'
import { csvRows } from './results-csv'
import { ResultsTable } from './results-table'
import { statementsOf } from './results-xapi'
import { Summary } from './summary'

/** The results that learners handed in, marked again here. */
export function Collect({ result }: { readonly result: string }) {
  const [all, setAll] = useState(handedIn)
  const [told, tell] = useState('')
  const [lessons, setLessons] = useState(0)
  const [isKept, setKept] = useState(true)
  const collected = useCollected(all, lessons)
  const add = (more: readonly HandedIn[]) => {
    const { there, kept } = addHandedIn(more)
    setKept(kept)
    tell(say('lesson-collect-added', { count: `${more.length - there}`, there: `${there}` }))
    setAll(handedIn())
  }
  useEffect(() => whenHandedInElsewhere(() => setAll(handedIn())), [])
  useCode(result, add)
  const groups = grouped(collected?.rows ?? [])
  return (
    <article class="lessons lesson-collect" data-done={collected !== null}>
      <h1 tabIndex={-1}>{say('lesson-collect')}</h1>
      <p>{say('lesson-collect-intro')}</p>
      <Tools
        collected={collected}
        isEmpty={all.length === 0}
        onFiles={files => void Promise.all(files.map(read)).then(add)}
        onLesson={file =>
          void addLesson(file).then(({ why, kept }) => {
            tell(why === '' ? say('lesson-collect-lesson-there') : why)
            if (!kept) setKept(false)
            setLessons(lessons + 1)
          })
        }
        onClear={() => {
          setKept(keepHandedIn([]))
          setAll([])
          tell('')
        }}
      />
      <p role="status">{collected === null ? say('lesson-collect-marking') : told}</p>
      <div role="status">{!isKept && <p class="notice">{say('lesson-collect-not-kept')}</p>}</div>
      {collected !== null && <NotRead collected={collected} />}
      {groups.map(([group, rows]) => (
        <section key={group} class="lesson-results">
          <h2>{headingOf(rows[0])}</h2>
          <ResultsTable rows={rows} />
          <Summary rows={rows} />
        </section>
      ))}
      <p class="hint">{say('lesson-collect-forge')}</p>
      {isKept && <p class="hint">{say('lesson-collect-kept')}</p>}
    </article>
  )
}

interface ToolsProperties {
  readonly collected: Collected | null
  readonly isEmpty: boolean
  readonly onFiles: (files: readonly File[]) => void
  readonly onLesson: (file: File) => void
  readonly onClear: () => void
}

function Tools({ collected, isEmpty, onFiles, onLesson, onClear }: ToolsProperties) {
  const settings = useStore(state => state.settings)
  const [isSure, setSure] = useState(false)
  return (
    <div class="tools">
      <ChooseFiles name={say('lesson-collect-open')} accept=".json,application/json" onFiles={onFiles} />
      <ChooseFile name={say('lesson-collect-lesson')} accept=".json,application/json" onFile={onLesson} />
      {collected !== null && !isEmpty && (
        <>
          <Save
            name={say('lesson-collect-csv')}
            content={() => csvOf(csvRows(collected, settings), settings)}
            type="text/csv"
            file={() => fileName(['results'], 'csv')}
          />
          <Save
            name={say('lesson-collect-xapi')}
            content={() => JSON.stringify(statementsOf(collected), null, 1)}
            type="application/json"
            file={() => fileName(['results', 'xapi'], 'json')}
          />
        </>
      )}
      {!isEmpty && (
        <button
          type="button"
          class="chip"
          onClick={() => {
            if (isSure) onClear()
            setSure(!isSure)
          }}
        >
          {say(isSure ? 'lesson-collect-clear-sure' : 'lesson-collect-clear')}
        </button>
      )}
      <a class="chip" href={writeLesson()}>
        {say('lesson-all')}
      </a>
    </div>
  )
}

/** The results of each lesson, as they were handed in. */
function grouped(rows: Collected['rows']): [string, Collected['rows']][] {
  const groups = new Map<string, Collected['rows']>()
  for (const row of rows) {
    const of = `${row.result.id} ${row.result.revision} ${row.text}`
    groups.set(of, [...(groups.get(of) ?? []), row])
  }
  return [...groups]
}

function headingOf(row: Collected['rows'][number] | undefined): string {
  if (row === undefined) return ''
  const { id, revision } = row.result
  const title = row.lesson === null ? visible(id) || say('lesson-untitled') : titleOf(row.lesson)
  return say('lesson-collect-of', { title, revision: `${revision}` })
}

/** What cannot be read as a result, each with why. */
function NotRead({ collected: { unread } }: { readonly collected: Collected }) {
  if (unread.length === 0) return null
  return (
    <div class="notice lesson-unread">
      <p>{say('lesson-collect-unread', { count: `${unread.length}` })}</p>
      <ul>
        {unread.map(({ source, why }, index) => (
          <li key={index} data-why={why}>
            <strong dir="auto">
              {visible(source) || say(source === '' ? 'lesson-collect-code' : 'lesson-collect-file')}
            </strong>{' '}
            {say(`lesson-collect-${why}`)}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** The text of a file; of one that is too large, or that the system keeps back, nothing is read. */
async function read(file: File): Promise<HandedIn> {
  const text = file.size > LARGEST ? '' : await file.text().catch(() => '')
  return { source: file.name, text, size: file.size }
}

/** All results marked; nothing while they are. */
function useCollected(all: readonly HandedIn[], lessons: number): Collected | null {
  const settings = useStore(state => state.settings)
  const [collected, setCollected] = useState<Collected | null>(null)
  useEffect(() => {
    let isNewest = true
    setCollected(null)
    const mark = async () => collect(all, await knownLessons(), settings)
    mark().then(
      collected => isNewest && setCollected(collected),
      () => isNewest && setCollected({ rows: [], unread: [] }),
    )
    return () => {
      isNewest = false
    }
    // A lesson more may know what none knew before.
  }, [all, lessons, settings])
  return collected
}

/** Takes in the code of the address, which is then that of the collection. */
function useCode(result: string, add: (more: readonly HandedIn[]) => void): void {
  const newest = useRef(add)
  newest.current = add
  useEffect(() => {
    if (result === '') return
    void unpack(result).then(unpacked => {
      const [text, size] =
        'text' in unpacked
          ? [unpacked.text, unpacked.text.length]
          : [result.slice(0, LARGEST), unpacked.why === 'bomb' ? LONGEST_UNPACKED + 1 : result.length]
      newest.current([{ source: '', text, size }])
      const rest = writeLessonAddress({ what: COLLECT, seed: null, step: null, view: '' })
      setState({ place: { kind: 'lesson', rest } })
      address.replaceSoon(() => writeLesson(rest))
    })
  }, [result])
}
