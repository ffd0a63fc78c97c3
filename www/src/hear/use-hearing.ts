import { useEffect, useState } from 'preact/hooks'
import { takeEscape } from '../base/escape'
import { Player, UNPLAYED, type Asked, type Played } from './player'
import type { Why } from './why'

/** The pause after which what was changed is heard, ms. */
const REST = 250

/** Plays what is asked from a press on, until something stops it. */
export function useHearing(asked: Asked) {
  const [played, setPlayed] = useState<Played>(UNPLAYED)
  const [player] = useState(() => new Player(asked, change => setPlayed(played => ({ ...played, ...change }))))
  player.asked = asked
  const { kind } = played.sounding

  useEffect(() => () => player.close(), [player])
  const { a, b, ways, source, volume } = asked
  useEffect(() => {
    if (!player.isBehind()) return
    const timer = setTimeout(() => void player.follow(), REST)
    return () => clearTimeout(timer)
  }, [player, kind, a, b, ways, source])
  useEffect(() => player.turn(), [player, volume])
  useStops(player, kind !== 'silent')

  return {
    ...played,
    play: () => void player.play(),
    toggle: () => player.toggle(),
    stop: () => player.stop(),
    chosen: (wrong: Why | null) => player.chosen(wrong),
  }
}

/** Ends the sound by a key, and where nobody sees that it is on. */
function useStops(player: Player, on: boolean): void {
  useEffect(() => {
    if (!on) return
    // Before anything else that the key closes.
    const escape = (event: KeyboardEvent) => takeEscape(event) && player.stop()
    const hidden = () => document.hidden && player.stop('hear-hidden')
    const left = () => player.stop('hear-hidden')
    document.addEventListener('keydown', escape, true)
    document.addEventListener('visibilitychange', hidden)
    addEventListener('pagehide', left)
    return () => {
      document.removeEventListener('keydown', escape, true)
      document.removeEventListener('visibilitychange', hidden)
      removeEventListener('pagehide', left)
    }
  }, [player, on])
}
