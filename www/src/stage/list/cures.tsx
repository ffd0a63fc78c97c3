import { useEffect, useState } from 'preact/hooks'
import type { InputLine, Row, RowCure, Settings, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { useStore } from '../../screen/store'
import { edit, getProject, useProject } from '../show/project'
import { titleOf } from './columns'
import { lineOf } from './deeds'
import { tellOf } from './list-state'
import { figureText, nameOf } from './verdict'
import { changeFor, makeChange } from './whole-line'

interface Properties {
  readonly line: InputLine
  readonly row: Row
}

/** What would mend a row, each done by one tap, with what it mends and what it leaves. */
export function Cures({ line, row }: Properties) {
  const settings = useStore(state => state.settings)
  const cures = useCures(line, row, settings)
  if (row.missed === 0) return null
  return (
    <section class="cures" aria-label={say('cures')} aria-busy={cures === null}>
      <h4>{say('cures')}</h4>
      {cures === null && <p class="hint">{say('stage-cures-coming')}</p>}
      {cures?.length === 0 && <p class="hint">{say('stage-cure-none')}</p>}
      <ul class="row-cures" role="list">
        {cures?.map(cure => (
          <li key={cure.text}>
            <button type="button" class="chip" onClick={() => mend(line.id, cure)}>
              {cure.text}
              {!cure.has && <span class="hint"> {say('stage-cure-not-there')}</span>}
            </button>
            <p class="hint">{outcome(cure, settings)}</p>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What a cure mends, and what is left then. */
function outcome({ fixes, left }: RowCure, settings: Settings): string {
  const names = fixes.map(reading => nameOf({ reading })).join(', ')
  if (left.length === 0) return say('stage-cure-all', { fixes: names })
  const rest = left.map(figure => figureText(figure, settings)).join('; ')
  return fixes.length === 0
    ? say('stage-cure-helps', { left: rest })
    : say('stage-cure-some', { fixes: names, left: rest })
}

/** The cures of a row as it is now, all of them at once; nothing until they are known. */
function useCures(line: InputLine, row: Row, settings: Settings): readonly RowCure[] | null {
  const show = useProject(({ show }) => show)
  const solving = useProject(({ solving }) => solving)
  const [found, setFound] = useState<{
    readonly of: Row
    readonly show: Show
    readonly cures: readonly RowCure[]
  } | null>(null)
  useEffect(() => {
    if (solving || row.missed === 0) return
    let dropped = false
    const find = async () => {
      const cures = await askStage('stage_cures', show, line.id, settings)
      if (!dropped) setFound({ of: row, show, cures })
    }
    void find()
    return () => {
      dropped = true
    }
  }, [line.id, row, show, settings, solving])
  return found?.of === row && found.show === show ? found.cures : null
}

function mend(id: string, { text, values, gear, place }: RowCure): void {
  const { show } = getProject()
  if (place !== '') {
    const line = lineOf(show, id)
    if (line === undefined) return
    edit(say('stage-list-did-values', { row: titleOf(line) }), draft => {
      const one = lineOf(draft, id)
      if (one === undefined) return
      one[place === 'di' ? 'di' : 'pad'] = gear
      one.values = { ...values }
    })
    tellOf(id, say('cured', { cure: text }))
    return
  }
  const change = changeFor(show, values)
  makeChange(show, id, change)
  const chosen = show.gear.find(gear => gear.id === change.choice?.gear)
  const told = { cure: text, gear: chosen?.name ?? '' }
  tellOf(id, chosen === undefined ? say('cured', { cure: text }) : say('stage-cured-with', told))
}
