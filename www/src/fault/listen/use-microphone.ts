import { useCallback, useEffect, useRef, useState } from 'preact/hooks'
import { askForSound, capture, type Capture } from './capture'

/** After so long without a hand on the page the microphone goes off, ms. */
const IDLE = 120_000
/** What a hand on the page does. */
const HANDS = ['pointerdown', 'keydown', 'wheel', 'touchmove'] as const

/** Why it is not on: by itself, or why the browser gave none. */
export type Off = 'hidden' | 'idle' | 'ended' | 'refused' | 'none' | 'busy' | 'stuck' | 'failed'

export interface Microphone {
  readonly state: 'off' | 'asking' | 'on'
  readonly capture: Capture | null
  readonly why: Off | null
  readonly start: (device: string) => void
  readonly stop: () => void
}

/** A microphone or an input, which is on only while somebody looks. */
export function useMicrophone(): Microphone {
  const [shown, setShown] = useState<Pick<Microphone, 'state' | 'capture' | 'why'>>(OFF)
  /** What is on, or wanted: another one has taken its place where it is not the same. */
  const wanted = useRef<{ capture: Capture | null } | null>(null)
  const off = useCallback((why: Off | null) => {
    wanted.current?.capture?.stop()
    wanted.current = null
    setShown({ ...OFF, why })
  }, [])
  const start = useCallback(
    (device: string) => {
      wanted.current?.capture?.stop()
      const mine: { capture: Capture | null } = { capture: null }
      wanted.current = mine
      setShown({ ...OFF, state: 'asking' })
      const isWanted = () => wanted.current === mine
      taken(device, isWanted, () => isWanted() && off('ended')).then(
        capture => {
          mine.capture = capture
          if (capture !== null && isWanted()) setShown({ state: 'on', capture, why: null })
          else capture?.stop()
        },
        (error: unknown) => isWanted() && off(whyNot(error)),
      )
    },
    [off],
  )
  const stop = useCallback(() => off(null), [off])
  const isOn = shown.state !== 'off'
  useEffect(() => {
    if (isOn) return whileLookedAt(off)
    return undefined
  }, [isOn, off])
  // The view is gone.
  useEffect(
    () => () => {
      wanted.current?.capture?.stop()
      wanted.current = null
    },
    [],
  )
  return { ...shown, start, stop }
}

const OFF = { state: 'off', capture: null, why: null } as const

async function taken(device: string, isWanted: () => boolean, onEnd: () => void): Promise<Capture | null> {
  const stream = await askForSound(device)
  if (isWanted()) {
    try {
      return await capture(stream, onEnd)
    } catch (error) {
      letGo(stream)
      throw error
    }
  }
  letGo(stream)
  return null
}

function letGo(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop()
}

/** Says when nobody looks any more, until the function that it gives is called. */
function whileLookedAt(off: (why: Off) => void): () => void {
  let timer = setTimeout(off, IDLE, 'idle')
  const hand = () => {
    clearTimeout(timer)
    timer = setTimeout(off, IDLE, 'idle')
  }
  // What asks for the microphone may hide nothing of the page; another tab does.
  const look = () => document.visibilityState === 'hidden' && off('hidden')
  const leave = () => off('hidden')
  for (const kind of HANDS) document.addEventListener(kind, hand, { passive: true })
  document.addEventListener('visibilitychange', look)
  addEventListener('pagehide', leave)
  return () => {
    clearTimeout(timer)
    for (const kind of HANDS) document.removeEventListener(kind, hand)
    document.removeEventListener('visibilitychange', look)
    removeEventListener('pagehide', leave)
  }
}

function whyNot(error: unknown): Off {
  const name = error instanceof Error ? error.name : ''
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused'
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'none'
  if (name === 'NotReadableError' || name === 'AbortError') return 'busy'
  if (name === 'TimeoutError') return 'stuck'
  return 'failed'
}
