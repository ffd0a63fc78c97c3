// SCORM 1.2 (ADL, SCORM Run-Time Environment 1.2, 2001).

import { findApi } from './find-api'
import { launch } from './launch'
import { once, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Answered, type Attempt } from './messages'
import { timeOfDay, timespan } from './times'

interface Api {
  LMSInitialize(nothing: ''): string
  LMSFinish(nothing: ''): string
  LMSGetValue(element: string): string
  LMSSetValue(element: string, value: string): string
  LMSCommit(nothing: ''): string
  LMSGetLastError(): string
  LMSGetErrorString(code: string): string
}

/** CMIString255. */
const STRING = 255

class Scorm12 implements LearningSystem {
  readonly #api: Api | null = findApi<Api>('API')
  readonly #from = Date.now()
  readonly #isFirstEnd = once()
  #told = 0
  #counts = false
  #isDone = false

  async begin(): Promise<Begun> {
    const api = this.#api
    if (api === null) throw new Error('')
    this.#must(api.LMSInitialize(''))
    const mode = api.LMSGetValue('cmi.core.lesson_mode')
    this.#counts = mode !== 'browse' && mode !== 'review'
    this.#told = Number(api.LMSGetValue('cmi.interactions._count')) || 0
    if (this.#counts && /^(not attempted|unknown|)$/.test(api.LMSGetValue('cmi.core.lesson_status'))) {
      api.LMSSetValue('cmi.core.lesson_status', 'incomplete')
      api.LMSCommit('')
    }
    return {
      kept: api.LMSGetValue('cmi.suspend_data'),
      counts: this.#counts,
      name: api.LMSGetValue('cmi.core.student_name'),
    }
  }

  async keep(attempt: Attempt): Promise<void> {
    const api = this.#api
    if (api === null) return
    const set = (element: string, value: string) => this.#must(api.LMSSetValue(element, value))
    set('cmi.suspend_data', attempt.kept.slice(0, KEPT_MOST))
    if (attempt.answered.length > 0) {
      set('cmi.core.score.min', '0')
      set('cmi.core.score.max', '100')
      set('cmi.core.score.raw', `${Math.round(attempt.share * 10_000) / 100}`)
    }
    // What a learning system does not keep of single answers is no reason to keep nothing.
    for (const answered of attempt.answered.slice(this.#told)) this.#tell(api, answered)
    this.#isDone = attempt.done
    if (attempt.done) set('cmi.core.lesson_status', attempt.share >= attempt.pass ? 'passed' : 'failed')
    this.#must(api.LMSCommit(''))
  }

  #tell(api: Api, { step, kind, response, right, credit, points, took, at }: Answered): void {
    const place = `cmi.interactions.${this.#told}`
    this.#told += 1
    const type = kind === 'number' && /^-?\d+(\.\d+)?$/.test(response) ? 'numeric' : 'fill-in'
    const set = (element: string, value: string) => api.LMSSetValue(`${place}.${element}`, value)
    set('id', `step-${step}`)
    set('type', type)
    set('time', timeOfDay(at))
    set('weighting', `${points}`)
    set('correct_responses.0.pattern', right.slice(0, STRING))
    set('student_response', response.slice(0, STRING))
    set('result', credit >= 1 ? 'correct' : credit <= 0 ? 'wrong' : `${Math.round(credit * 1000) / 1000}`)
    set('latency', timespan(took))
  }

  end(): void {
    const api = this.#api
    if (api === null || !this.#isFirstEnd()) return
    api.LMSSetValue('cmi.core.session_time', timespan(Date.now() - this.#from))
    api.LMSSetValue('cmi.core.exit', this.#isDone ? '' : 'suspend')
    api.LMSCommit('')
    api.LMSFinish('')
  }

  #must(answer: string): void {
    if (`${answer}` === 'true' || this.#api === null) return
    const code = this.#api.LMSGetLastError()
    throw new Error(this.#api.LMSGetErrorString(code) || `error ${code}`)
  }
}

launch(new Scorm12())
