// The show that is open: what is edited, undone, and solved. Views take pieces of it
// through `useProject` and change it through `edit`, never otherwise.

import { applyPatches, enablePatches, produceWithPatches, type Patch } from 'immer'
import type { Row, Show, Told, Totals } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { storeOf } from './store-of'

enablePatches()

/** What one step changed, and what takes it back. */
export interface Step {
  /** What was done, in the reader's words. */
  readonly what: string
  readonly patches: Patch[]
  readonly inverse: Patch[]
}

export interface Project {
  readonly show: Show
  /** The steps that can be undone, the last one last, and those that can be done again, the next one last. */
  readonly done: readonly Step[]
  readonly undone: readonly Step[]
  /** The rows as they were solved last, by line; a new line has none yet. */
  readonly rows: ReadonlyMap<string, Row>
  readonly totals: Totals | null
  readonly flaws: readonly Told[]
  /** Whether so much may lie between two earths that nothing is to be plugged in. */
  readonly dangerous: boolean
  /** Whether rows and totals are those of an older state of the show. */
  readonly solving: boolean
}

/** So many steps can be undone. */
const MOST_STEPS = 200

export function emptyShow(): Show {
  return {
    version: 1,
    name: '',
    mains: getState().settings.mains,
    gear: [],
    power: [],
    equipment: [],
    links: [],
    lines: [],
    limits: {},
    notes: '',
  }
}

const project = storeOf<Project>(() => begin(emptyShow()))
const savers = new Set<(project: Project) => void>()

export const getProject = project.get
const { put } = project
/** A piece of the project; the view is drawn again when the piece is another. */
export const useProject = project.use

function begin(show: Show, done: readonly Step[] = [], undone: readonly Step[] = []): Project {
  return { show, done, undone, rows: new Map(), totals: null, flaws: [], dangerous: false, solving: false }
}

/** Calls `saver` whenever the show has changed. */
export function whenChanged(saver: (project: Project) => void): void {
  savers.add(saver)
}

/** Opens a show, with the steps that were made in it. */
export function openShow(show: Show, done: readonly Step[] = [], undone: readonly Step[] = []): void {
  merging = null
  put(begin(show, done, undone))
  solveSoon()
}

let merging: string | null = null

/**
 * Changes the show, as one step to be undone. Changes with the same `merge` one after
 * the other, as typing makes them, are one step.
 */
export function edit(what: string, change: (draft: Show) => void, merge: string | null = null): void {
  const { show, done } = getProject()
  const [next, patches, inverse] = produceWithPatches(show, draft => void change(draft as Show))
  if (patches.length === 0) return
  const last = done.at(-1)
  const same = merge !== null && merge === merging && last !== undefined
  const step = same
    ? { what, patches: [...last.patches, ...patches], inverse: [...inverse, ...last.inverse] }
    : { what, patches, inverse }
  merging = merge
  changed({ show: next, done: [...(same ? done.slice(0, -1) : done), step].slice(-MOST_STEPS), undone: [] })
}

/** Takes the last step back; answers what it was. */
export function undo(): string | null {
  const { show, done, undone } = getProject()
  const step = done.at(-1)
  if (step === undefined) return null
  merging = null
  changed({ show: applyPatches(show, step.inverse), done: done.slice(0, -1), undone: [...undone, step] })
  return step.what
}

/** Does the step again that was taken back last; answers what it was. */
export function redo(): string | null {
  const { show, done, undone } = getProject()
  const step = undone.at(-1)
  if (step === undefined) return null
  merging = null
  changed({ show: applyPatches(show, step.patches), done: [...done, step], undone: undone.slice(0, -1) })
  return step.what
}

function changed(change: Pick<Project, 'show' | 'done' | 'undone'>): void {
  put(change)
  for (const saver of savers) saver(getProject())
  solveSoon()
}

let asked: Show | null = null

/** Solves the show; while that goes on, newer states wait, and only the newest is solved next. */
function solveSoon(): void {
  put({ solving: true })
  if (asked === null) void solve()
}

async function solve(): Promise<void> {
  const { show } = getProject()
  asked = show
  try {
    const [{ rows, totals, dangerous }, flaws] = await Promise.all([
      askStage('stage_solve', show),
      askStage('stage_check', show, getState().settings),
    ])
    const solving = getProject().show !== show
    put({ rows: new Map(rows.map(row => [row.id, row])), totals, flaws, dangerous, solving })
  } finally {
    asked = null
  }
  if (getProject().show !== show) void solve()
}

/** An identifier that no row of a list has yet. */
export function freeId(list: readonly { readonly id: string }[], name: string): string {
  const ids = new Set(list.map(({ id }) => id))
  const base =
    name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 40) || 'one'
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`
    if (!ids.has(id)) return id
  }
}
