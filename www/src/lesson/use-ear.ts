import { useEffect, useState } from 'preact/hooks'
import { wantHear } from '../engine/hearing'
import { useStops } from '../hear/use-stops'
import { EarPlayer, type Sounding, type Which } from './ear-player'
import type { Asked } from './step'

export interface Ear {
  readonly sounding: Sounding
  /** Whether X was played in this trial: what nobody heard is not named. */
  readonly isXHeard: boolean
  readonly play: (which: Which) => void
  readonly stop: () => void
  readonly volume: (db: number) => void
}

/** The rigs of a step, to be listened to while it is on the screen. */
export function useEar(asked: Asked, trial: number): Ear {
  const [sounding, setSounding] = useState<Sounding>({ kind: 'silent' })
  const [heardIn, setHeardIn] = useState<number | null>(null)
  const [player] = useState(
    () =>
      new EarPlayer(sounding => {
        setSounding(sounding)
        if (sounding.kind === 'playing' && sounding.which === 'x') setHeardIn(sounding.trial)
        // It was pressed, and nothing came.
        else if (sounding.kind === 'held') setHeardIn(null)
      }),
  )
  useEffect(() => {
    // The engine is there before the first press, if the network lets it.
    wantHear().catch(() => undefined)
    return () => player.free()
  }, [player])
  useStops(player)
  // The next X is another one, and is not heard before it is asked for.
  useEffect(() => () => player.stop(), [player, trial])
  return {
    sounding,
    isXHeard: heardIn === trial,
    play: which => void player.play(which, asked, trial),
    stop: () => player.stop(),
    volume: db => player.volume(db),
  }
}
