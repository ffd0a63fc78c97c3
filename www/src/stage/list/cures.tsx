import { useEffect, useState } from 'preact/hooks'
import type { Cure, InputLine, Row, Settings, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { useStore } from '../../screen/store'
import { getProject, useProject } from '../show/project'
import { tell } from './list-state'
import { changeFor, differing, makeChange, showSettings, textsOf } from './whole-line'

/** A cure in the reader's words, with its values as the show writes them. */
interface Offer {
  readonly reading: string
  readonly text: string
  readonly values: Readonly<Record<string, string>>
}

interface Properties {
  readonly line: InputLine
  readonly row: Row
}

/** What would mend a row, each done by one tap. */
export function Cures({ line, row }: Properties) {
  const offers = useOffers(line, row)
  if (row.missed === 0 || offers === null) return null
  return (
    <section class="cures" aria-label={say('cures')}>
      <h4>{say('cures')}</h4>
      {offers.length === 0 && <p class="hint">{say('stage-cure-none')}</p>}
      <ul class="chips">
        {offers.map(offer => (
          <li key={`${offer.reading} ${offer.text}`}>
            <button type="button" class="chip" onClick={() => cure(line.id, offer)}>
              {offer.text}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What would mend it; nothing until that is known. */
function useOffers(line: InputLine, row: Row): readonly Offer[] | null {
  const settings = useStore(state => state.settings)
  const solving = useProject(({ solving }) => solving)
  const [offers, setOffers] = useState<readonly Offer[] | null>(null)
  useEffect(() => {
    if (solving || row.missed === 0) return
    let dropped = false
    const find = async () => {
      const next = await offersFor(getProject().show, line.id, settings)
      if (!dropped) setOffers(next)
    }
    void find()
    return () => {
      dropped = true
    }
  }, [line, row, settings, solving])
  return offers
}

async function offersFor(show: Show, id: string, settings: Settings): Promise<readonly Offer[]> {
  const own = showSettings(show)
  const ask = (settings: Settings): Promise<Cure[]> => askStage('stage_cures', show, id, settings)
  const [told, written] = await Promise.all([ask(settings), ask(own)])
  return told.map(({ reading, link }, place) => ({
    reading,
    text: link.text,
    values: Object.fromEntries(written[place]?.link.values ?? link.values),
  }))
}

function cure(id: string, { text, values }: Offer): void {
  const { show } = getProject()
  const changed = differing(textsOf(show, id), values, showSettings(show))
  const change = changeFor(show, changed)
  makeChange(show, id, change)
  const gear = show.gear.find(gear => gear.id === change.choice?.gear)
  tell(gear === undefined ? say('cured', { cure: text }) : say('stage-cured-with', { cure: text, gear: gear.name }))
}
