// SCORM 1.2 (ADL, SCORM Run-Time Environment 1.2, 2001).

import { findApi } from './find-api'
import { interaction12 } from './interaction'
import { launch } from './launch'
import { once, Untold, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Answered, type Attempt } from './messages'
import { decimal } from './named'
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
  readonly #from = Date.now()
  readonly #isFirstEnd = once()
  readonly #untold = new Untold()
  #api: Api | null = null
  /** Where the next answer goes. */
  #place = 0

  async begin(): Promise<Begun> {
    const api = findApi<Api>('API')
    if (api === null) throw new Error('')
    must(api, api.LMSInitialize(''))
    this.#api = api
    const mode = api.LMSGetValue('cmi.core.lesson_mode')
    const counts = mode !== 'browse' && mode !== 'review'
    this.#place = Number(api.LMSGetValue('cmi.interactions._count')) || 0
    const status = api.LMSGetValue('cmi.core.lesson_status')
    if (counts && /^(not attempted|unknown|)$/.test(status)) {
      // Where this is refused it is so with what is kept next.
      api.LMSSetValue('cmi.core.lesson_status', 'incomplete')
      api.LMSCommit('')
    }
    return {
      kept: api.LMSGetValue('cmi.suspend_data'),
      counts,
      finished: /^(passed|failed|completed)$/.test(status),
      name: api.LMSGetValue('cmi.core.student_name'),
      wayBack: '',
    }
  }

  async keep(attempt: Attempt): Promise<void> {
    const api = this.#api
    if (api === null) return
    const { share, pass, progress, done, kept } = attempt
    const set = (element: string, value: string) => must(api, api.LMSSetValue(element, value))
    set('cmi.suspend_data', kept.slice(0, KEPT_MOST))
    if (share !== null && (progress > 0 || done)) {
      set('cmi.core.score.min', '0')
      set('cmi.core.score.max', '100')
      set('cmi.core.score.raw', `${Math.round(share * 10_000) / 100}`)
    }
    // What a learning system does not keep of single answers is no reason to keep nothing.
    for (const answered of this.#untold.of(attempt)) this.#tell(api, answered)
    if (done) set('cmi.core.lesson_status', share === null ? 'completed' : share >= pass ? 'passed' : 'failed')
    must(api, api.LMSCommit(''))
  }

  #tell(api: Api, answered: Answered): void {
    const place = `cmi.interactions.${this.#place}`
    this.#place += 1
    const { step, credit, points, took, at } = answered
    const { type, response, patterns } = interaction12(answered)
    const set = (element: string, value: string) => api.LMSSetValue(`${place}.${element}`, value)
    set('id', `step-${step}`)
    set('type', type)
    set('time', timeOfDay(at))
    set('weighting', decimal(points))
    patterns.forEach((right, at) => set(`correct_responses.${at}.pattern`, right.slice(0, STRING)))
    set('student_response', response.slice(0, STRING))
    set('result', verdict(credit))
    set('latency', timespan(took))
  }

  async end(): Promise<void> {
    const api = this.#api
    if (api === null || !this.#isFirstEnd()) return
    api.LMSSetValue('cmi.core.session_time', timespan(Date.now() - this.#from))
    // Also where it is finished: another begin would be another attempt, and could lower this one.
    api.LMSSetValue('cmi.core.exit', 'suspend')
    api.LMSCommit('')
    api.LMSFinish('')
  }
}

function verdict(credit: number | null): string {
  if (credit === null) return 'neutral'
  return credit >= 1 ? 'correct' : credit <= 0 ? 'wrong' : decimal(Math.round(credit * 1000) / 1000)
}

function must(api: Api, answer: string): void {
  if (`${answer}` === 'true') return
  const code = api.LMSGetLastError()
  throw new Error(api.LMSGetErrorString(code) || `error ${code}`)
}

launch(new Scorm12())
