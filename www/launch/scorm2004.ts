// SCORM 2004, 4th edition (ADL, SCORM Run-Time Environment, 2009; IEEE 1484.11.1 and .2).

import { findApi } from './find-api'
import { launch } from './launch'
import { once, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Answered, type Attempt } from './messages'
import { duration } from './times'

interface Api {
  Initialize(nothing: ''): string
  Terminate(nothing: ''): string
  GetValue(element: string): string
  SetValue(element: string, value: string): string
  Commit(nothing: ''): string
  GetLastError(): string
  GetErrorString(code: string): string
}

class Scorm2004 implements LearningSystem {
  readonly #api: Api | null = findApi<Api>('API_1484_11')
  readonly #from = Date.now()
  readonly #isFirstEnd = once()
  #told = 0
  #isDone = false

  async begin(): Promise<Begun> {
    const api = this.#api
    if (api === null) throw new Error('')
    this.#must(api.Initialize(''))
    const mode = api.GetValue('cmi.mode')
    const counts = mode !== 'browse' && mode !== 'review'
    this.#told = Number(api.GetValue('cmi.interactions._count')) || 0
    if (counts && api.GetValue('cmi.completion_status') !== 'completed') {
      api.SetValue('cmi.completion_status', 'incomplete')
      api.Commit('')
    }
    return { kept: api.GetValue('cmi.suspend_data'), counts, name: api.GetValue('cmi.learner_name') }
  }

  async keep(attempt: Attempt): Promise<void> {
    const api = this.#api
    if (api === null) return
    const set = (element: string, value: string) => this.#must(api.SetValue(element, value))
    set('cmi.suspend_data', attempt.kept.slice(0, KEPT_MOST))
    set('cmi.progress_measure', `${shared(attempt.progress)}`)
    if (attempt.answered.length > 0) {
      set('cmi.score.min', '0')
      set('cmi.score.max', '100')
      set('cmi.score.raw', `${Math.round(attempt.share * 10_000) / 100}`)
      set('cmi.score.scaled', `${shared(attempt.share)}`)
    }
    for (const answered of attempt.answered.slice(this.#told)) this.#tell(api, answered)
    this.#isDone = attempt.done
    if (attempt.done) {
      set('cmi.completion_status', 'completed')
      set('cmi.success_status', attempt.share >= attempt.pass ? 'passed' : 'failed')
    }
    this.#must(api.Commit(''))
  }

  #tell(api: Api, { step, kind, title, response, right, credit, points, took, at }: Answered): void {
    const place = `cmi.interactions.${this.#told}`
    this.#told += 1
    const isNumber = kind === 'number' && Number.isFinite(Number(response))
    const set = (element: string, value: string) => api.SetValue(`${place}.${element}`, value)
    set('id', `urn:stageohm:step:${step}`)
    set('type', isNumber ? 'numeric' : 'other')
    set('timestamp', new Date(at).toISOString().replace(/\.\d+Z$/, 'Z'))
    set('weighting', `${points}`)
    set('correct_responses.0.pattern', isNumber ? `${right}[:]${right}` : right.slice(0, 4000))
    set('learner_response', response.slice(0, 4000))
    set('result', credit >= 1 ? 'correct' : credit <= 0 ? 'incorrect' : `${shared(credit)}`)
    set('latency', duration(took))
    set('description', title.slice(0, 250))
  }

  end(): void {
    const api = this.#api
    if (api === null || !this.#isFirstEnd()) return
    api.SetValue('cmi.session_time', duration(Date.now() - this.#from))
    api.SetValue('cmi.exit', this.#isDone ? 'normal' : 'suspend')
    api.Commit('')
    api.Terminate('')
  }

  #must(answer: string): void {
    if (`${answer}` === 'true' || this.#api === null) return
    const code = this.#api.GetLastError()
    throw new Error(this.#api.GetErrorString(code) || `error ${code}`)
  }
}

/** A share to seven significant digits, as its type has it. */
function shared(share: number): number {
  return Number(Math.min(Math.max(share, 0), 1).toPrecision(7))
}

launch(new Scorm2004())
