import type { FaultAnswer, Sound } from '../../generated/contract'
import { percent } from '../base/percent'
import { within } from '../base/within'
import { say } from '../base/words'
import type { Search } from './address'
import { Answers, Slip } from './answers'
import { Chart } from './chart'
import { Found } from './found'
import { Judgement } from './judgement'
import { KeepReport } from './keep-report'
import { Left } from './left'
import { lineOf, plannedOf, summaryOf } from './line'
import { LinePanel } from './line-panel'
import { Odds } from './odds'
import { causeName } from './said'
import { questionOf } from './search-state'
import { stepShown } from './shown'
import { Step } from './step'
import { isWrong, stepsOf, type Told } from './use-answer'

interface Properties {
  /** The newest search, which may be a moment ahead of what is told. */
  readonly search: Search
  readonly told: Told
  readonly sound: Sound | null
}

/** The step to do or the cause, beside the odds. */
export function Now({ told }: Pick<Properties, 'told'>) {
  const { search, answer } = told
  if (isWrong(told)) return <WrongLine answer={answer} />
  return (
    <>
      <Slip search={search} answer={answer} />
      <div class="fault-now">
        <Next told={told} />
        <Odds odds={answer.odds} />
      </div>
      <p class="unseen" role="status">
        {likeliestText(told)}
      </p>
    </>
  )
}

function WrongLine({ answer: { problems } }: { readonly answer: FaultAnswer }) {
  return (
    <>
      <h2 tabIndex={-1} data-focus>
        {say('fault-line-wrong')}
      </h2>
      {problems.map(({ message }) => (
        <p key={message} class="problem">
          {message}
        </p>
      ))}
    </>
  )
}

/** What was done so far, on which line, and what is kept of it. */
export function Rest({ search, told, sound }: Properties) {
  const { answer } = told
  const isRight = !isWrong(told)
  const line = lineOf(search.texts, search.settings)
  return (
    <>
      {isRight && <Answers search={told.search} answer={answer} />}
      {/* In one place, right or wrong: whoever types in it goes on. */}
      <LinePanel search={search} />
      {isRight && (
        <>
          <Judgement search={told.search} odds={answer.odds} />
          <KeepReport told={told} />
          <Chart question={questionOf(search, sound)} line={line === null ? '' : summaryOf(line)} />
        </>
      )}
    </>
  )
}

function Next({ told }: { readonly told: Told }) {
  const { search, answer } = told
  const step = stepShown(told)
  const others = stepsOf(answer).filter(other => other !== step && other !== answer.found?.proof)
  const { settings } = search
  if (step !== null) {
    const planned = plannedOf(step.step, search.texts, settings)
    return <Step key={step.step} step={step} others={others} settings={settings} planned={planned} />
  }
  if (answer.found !== null) {
    return <Found key={answer.found.cause} found={answer.found} others={others} search={search} />
  }
  return <Left odds={answer.odds} search={search} />
}

function likeliestText({ search, answer: { odds } }: Told): string {
  const [first] = odds
  if (first === undefined) return ''
  const cause = within(causeName(first.cause))
  return say('fault-spoken', { count: `${search.done.length}`, cause, share: percent(first.share) })
}
