// The notes in a window of their own, which follows the wall and leads it. The two know each
// other by their handles, since a file of this disk has no channel that others share.

import { useEffect, useRef, useState } from 'preact/hooks'
import { isRecord } from '../../base/shape'
import { whole } from '../../screen/address'
import { writeLesson } from '../../screen/link'
import { getState } from '../../screen/store'
import { readLessonAddress, writeLessonAddress } from '../address'
import type { Deed } from './keys'
import { isUncovered, type Uncovered } from './uncovered'

/** What is on the wall. */
export interface OnWall {
  readonly step: number
  readonly uncovered: Uncovered
}

const WALL = 'stageohm:class-wall'
const DEED = 'stageohm:class-deed'
const HELLO = 'hello'
/** How often a window of notes says that it is there, so that it is found again once the wall was loaded anew. */
const OFTEN = 1500

const LED: readonly unknown[] = ['back', 'next', 'reveal', 'blank']

/** Opens the window with the notes, and does what is asked there. */
export function useNotesWindow(wall: OnWall, deeds: Readonly<Record<Deed, () => void>>) {
  const other = useRef<Window | null>(null)
  const newest = useRef({ wall, deeds })
  newest.current = { wall, deeds }
  const [refused, setRefused] = useState(false)
  useEffect(() => {
    const hear = ({ data, source, origin }: MessageEvent<unknown>) => {
      if (!isRecord(data) || data['type'] !== DEED || !isOurs(origin) || !(source !== null && 'closed' in source))
        return
      other.current = source
      const { deed } = data
      if (LED.includes(deed)) newest.current.deeds[deed as Deed]()
      else tell(other.current, newest.current.wall)
    }
    addEventListener('message', hear)
    return () => removeEventListener('message', hear)
  }, [])
  const { step, uncovered } = wall
  useEffect(() => tell(other.current, { step, uncovered }), [step, uncovered])
  const openNotes = () => {
    other.current = window.open(notesAddress(), 'stageohm-notes', 'width=520,height=720')
    setRefused(other.current === null)
  }
  return { openNotes, refused }
}

function tell(other: Window | null, wall: OnWall): void {
  if (other !== null && !other.closed) other.postMessage({ type: WALL, ...wall }, '*')
}

function notesAddress(): string {
  const { place } = getState()
  const address = readLessonAddress(place.kind === 'lesson' ? place.rest : '')
  return whole(writeLesson(writeLessonAddress({ ...address, view: 'notes' })))
}

/** What is on the wall that opened this window, as far as it is told, and how to lead it. */
export function useWall(): { readonly wall: OnWall | null; readonly lead: (deed: Deed) => void } {
  const [wall, setWall] = useState<OnWall | null>(null)
  useEffect(() => {
    const hear = ({ data, source, origin }: MessageEvent<unknown>) => {
      if (!isRecord(data) || data['type'] !== WALL || source !== opener || !isOurs(origin)) return
      const { step, uncovered } = data
      if (typeof step === 'number' && isUncovered(uncovered)) setWall({ step, uncovered })
    }
    addEventListener('message', hear)
    lead(HELLO)
    const timer = setInterval(() => lead(HELLO), OFTEN)
    return () => {
      removeEventListener('message', hear)
      clearInterval(timer)
    }
  }, [])
  return { wall, lead }
}

function lead(deed: Deed | typeof HELLO): void {
  const wall = opener as Window | null
  wall?.postMessage({ type: DEED, deed }, '*')
}

/** A file of this disk has no origin to tell it by. */
function isOurs(origin: string): boolean {
  return origin === location.origin || (origin === 'null' && location.protocol === 'file:')
}
