import { useEffect, useState } from 'preact/hooks'
import { useStore } from '../../screen/store'
import type { LessonState } from '../lesson-state'
import { prepare, seedsOf, type Prepared } from './prepared'

export interface Preparing {
  readonly sheets: readonly Prepared[]
  /** Whether that is all of them. */
  readonly isDone: boolean
  readonly failed: string
}

const NONE: Preparing = { sheets: [], isDone: false, failed: '' }

/** The sheets of a class, one after the other: each is shown once it is there. */
export function usePrepared(state: LessonState, count: number, withKeys: boolean): Preparing {
  const settings = useStore(state => state.settings)
  const [prepared, setPrepared] = useState(NONE)
  const { what, lesson, own, flaws, seed } = state
  useEffect(() => {
    let isNewest = true
    const all = async () => {
      const sheets: Prepared[] = []
      for (const one of seedsOf(seed, count)) {
        const sheet = await prepare({ what, lesson, own, flaws }, one, settings, withKeys)
        // The screen is drawn between two of them.
        await new Promise(done => setTimeout(done))
        if (!isNewest) return
        sheets.push(sheet)
        setPrepared({ sheets: [...sheets], isDone: sheets.length === count, failed: '' })
      }
    }
    setPrepared(NONE)
    all().catch((error: unknown) => isNewest && setPrepared({ ...NONE, failed: String(error) }))
    return () => {
      isNewest = false
    }
  }, [what, lesson, own, flaws, seed, count, withKeys, settings])
  return prepared
}
