import { useMemo, useRef, useState } from 'preact/hooks'
import type { Sound } from '../../generated/contract'
import { say } from '../base/words'
import { getState, isEmbedded, useStore } from '../screen/store'
import { dropSecondTap } from './double-tap'
import { Now, Rest } from './going'
import { Listen } from './listen/listen'
import { Lost } from './lost'
import { searchOf, go, takeBack } from './search-state'
import { shownOf } from './shown'
import { Source } from './source'
import { ScopeQuestion, Start } from './start'
import { Stop } from './stop'
import { NOISES, knownOf } from './symptoms'
import { switchSymptom } from './switch-symptom'
import { useAnswer } from './use-answer'
import { useNewStep } from './use-new-step'
import { Way } from './way'

/** Finds the fault of a line, step by step. */
export function Fault({ rest }: { readonly rest: string }) {
  const settings = useStore(state => state.settings)
  const written = useMemo(() => searchOf(rest, settings), [rest, settings])
  const search = knownOf(written)
  const [sound, setSound] = useState<Sound | null>(null)
  const { told, failed } = useAnswer(search, sound)
  const article = useRef<HTMLElement>(null)
  const shown = shownOf(search, told)
  useNewStep(article, shown.name)
  const dangerous = search.done.find(({ outcome }) => outcome === 'dangerous')
  return (
    <Source.Provider value={told?.answer.source ?? ''}>
      <article ref={article} class="fault" data-shown={shown.kind} onClickCapture={dropSecondTap}>
        <h1 tabIndex={-1}>{say('seek')}</h1>
        <Lost written={written} search={search} unknown={told?.answer.unknown ?? []} />
        {shown.kind === 'danger' ? (
          <Stop why="danger" onBack={() => go({ danger: false })} />
        ) : shown.kind === 'meter' ? (
          <Stop why="meter" onBack={() => dangerous !== undefined && takeBack(dangerous.step)} />
        ) : shown.kind === 'start' ? (
          <Start search={search} />
        ) : (
          <>
            <Way search={search} />
            {shown.kind === 'scope' ? (
              <ScopeQuestion search={search} />
            ) : failed !== null ? (
              <p class="problem" role="alert">
                {say('fault-failed', { why: failed })}
              </p>
            ) : (
              told !== null && <Now told={told} />
            )}
            {/* In one place from the first tap on: what was heard stays through all steps. */}
            {NOISES.includes(search.symptom) && !isEmbedded(getState()) && (
              <Listen
                onHeard={setSound}
                symptom={search.symptom}
                onAgain={symptom => void switchSymptom(symptom)}
                odds={told?.answer.odds ?? []}
              />
            )}
            {told !== null && <Rest search={search} told={told} sound={sound} />}
          </>
        )}
      </article>
    </Source.Provider>
  )
}
