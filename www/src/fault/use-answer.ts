// The core's answer to a search, asked beside the page.

import { useEffect, useRef, useState } from 'preact/hooks'
import type { FaultAnswer, NextStep, Sound } from '../../generated/contract'
import { askStage } from '../engine/stage'
import type { Search } from './address'
import { questionOf } from './search-state'

/** A search, and what the core says to it. */
export interface Told {
  readonly search: Search
  /** What was heard and is counted in the answer. */
  readonly sound: Sound | null
  readonly answer: FaultAnswer
}

/** Steps as the core told them last: of one that was done it tells no more. */
const steps = new Map<string, NextStep>()

/** A step that was done, as it was told when it was to be done; nothing where it was not. */
export async function stepDone(search: Search, place: number): Promise<NextStep | undefined> {
  const id = search.done[place]?.step ?? ''
  if (!steps.has(id))
    learn(await askStage('fault_find', questionOf({ ...search, done: search.done.slice(0, place) }, null)))
  return steps.get(id)
}

function learn(answer: FaultAnswer): void {
  for (const step of stepsOf(answer)) steps.set(step.step, step)
}

/** All that can be done next, what tells most a minute first. */
export function stepsOf({ next, others, found }: FaultAnswer): NextStep[] {
  return [next, ...others, found?.proof].filter(step => step !== null && step !== undefined)
}

/** Whether something is wrong with the values of the line. */
export function isWrong({ answer }: Told): boolean {
  return answer.problems.length > 0 || Object.values(answer.fields).some(({ problem }) => problem !== null)
}

function isSameStep(one: Search, other: Search): boolean {
  const said = ({ symptom, scope, done }: Search) => JSON.stringify([symptom, scope, done])
  return said(one) === said(other)
}

interface Answered extends Told {
  /** What was asked, as a text to know it by. */
  readonly asked: string
}

/** The answer to the newest search that has one, and whether the core failed. */
export function useAnswer(search: Search, sound: Sound | null) {
  const [answered, setAnswered] = useState<Answered | null>(null)
  const [failed, setFailed] = useState<string | null>(null)
  const question = questionOf(search, sound)
  const asked = search.symptom === '' || search.scope === '' || search.danger ? null : JSON.stringify(question)
  const newest = useRef({ question, search })
  newest.current = { question, search }
  useEffect(() => {
    if (asked === null) {
      setAnswered(null)
      return
    }
    const { question, search } = newest.current
    let dropped = false
    askStage('fault_find', question).then(
      answer => {
        if (dropped) return
        learn(answer)
        setFailed(null)
        const come = { asked, search, sound: question.sound, answer }
        // While a line is typed what was known of it last stays.
        setAnswered(last => (isWrong(come) && last !== null && isSameStep(last.search, search) ? last : come))
      },
      (error: unknown) => dropped || setFailed(String(error)),
    )
    return () => {
      dropped = true
    }
  }, [asked])
  // Which step is looked at changes nothing of the answer.
  const told = answered?.asked === asked && answered !== null ? { ...answered, search } : answered
  return { told: asked === null ? null : told, failed }
}
