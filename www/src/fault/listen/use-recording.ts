import { useCallback, useRef, useState } from 'preact/hooks'
import type { Heard, Through } from '../../../generated/contract'
import { LONGEST, openRecording, type Recording } from './recording'

/** How a recording stands. */
export interface Opened {
  readonly state: 'none' | 'reading' | 'which' | 'heard' | 'wrong'
  readonly name: string
  readonly recording: Recording | null
  /** From where it is listened to, s. */
  readonly from: number
  /** The word for what is wrong. */
  readonly wrong: string
}

const NONE: Opened = { state: 'none', name: '', recording: null, from: 0, wrong: '' }

/** A recording that the reader gives, and what is heard in it. */
export function useRecording(onHeard: (heard: Heard | null) => void) {
  const [opened, setOpened] = useState(NONE)
  /** The newest wish: what comes of an older one is nobody's any more. */
  const wish = useRef(0)
  const hear = useCallback(
    async (recording: Recording, from: number, through: Through) => {
      const mine = ++wish.current
      const { name } = recording
      setOpened({ ...NONE, state: 'reading', name, recording, from })
      const told = await recording.hear(from, through).catch(() => ({ wrong: 'not-read' }))
      if (mine !== wish.current) return
      const isHeard = 'heard' in told
      onHeard(isHeard ? told.heard : null)
      setOpened({
        name,
        recording,
        from,
        state: isHeard ? 'heard' : 'wrong',
        wrong: isHeard ? '' : told.wrong,
      })
    },
    [onHeard],
  )
  const open = useCallback(
    async (file: File, through: Through) => {
      const mine = ++wish.current
      onHeard(null)
      setOpened({ ...NONE, state: 'reading', name: file.name })
      const recording = await openRecording(file)
      if (mine !== wish.current) return
      if ('wrong' in recording) setOpened({ ...NONE, state: 'wrong', name: file.name, wrong: recording.wrong })
      else if (recording.seconds <= LONGEST) await hear(recording, 0, through)
      else setOpened({ ...NONE, state: 'which', name: file.name, recording })
    },
    [hear, onHeard],
  )
  const close = useCallback(() => {
    wish.current++
    setOpened(NONE)
  }, [])
  return { opened, open, hear, close }
}
