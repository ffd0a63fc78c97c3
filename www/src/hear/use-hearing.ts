import { useEffect, useState } from 'preact/hooks'
import { Player, UNPLAYED, type Asked, type Played } from './player'
import { useStops } from './use-stops'
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
  const { rigs, ways, source, volume } = asked
  const [a, b] = rigs.map(({ side }) => side)
  useEffect(() => {
    if (!player.isBehind()) return
    const timer = setTimeout(() => void player.follow(), REST)
    return () => clearTimeout(timer)
  }, [player, kind, a, b, ways, source])
  useEffect(() => player.turn(), [player, volume])
  useStops(player)

  return {
    ...played,
    // What plays is told of until something else does; once it is silent, only what a press would play.
    heard: kind === 'playing' || player.isGiven() ? played.heard : null,
    play: () => void player.play(),
    toggle: () => player.toggle(),
    stop: () => player.stop(),
    chosen: (wrong: Why | null) => player.chosen(wrong),
  }
}
