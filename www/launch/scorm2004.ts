// SCORM 2004, 4th edition (ADL, SCORM Run-Time Environment, 2009; IEEE 1484.11.1 and .2).

import { findApi } from './find-api'
import { interaction } from './interaction'
import { launch } from './launch'
import { once, Untold, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Answered, type Attempt } from './messages'
import { decimal } from './named'
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

/** What it takes of a text, in characters. */
const STRING = 4000

class Scorm2004 implements LearningSystem {
  readonly #from = Date.now()
  readonly #isFirstEnd = once()
  readonly #untold = new Untold()
  #api: Api | null = null
  /** Where the next answer goes. */
  #place = 0

  async begin(): Promise<Begun> {
    const api = findApi<Api>('API_1484_11')
    if (api === null) throw new Error('')
    must(api, api.Initialize(''))
    this.#api = api
    const mode = api.GetValue('cmi.mode')
    const counts = mode !== 'browse' && mode !== 'review'
    this.#place = Number(api.GetValue('cmi.interactions._count')) || 0
    const finished = api.GetValue('cmi.completion_status') === 'completed'
    if (counts && !finished) {
      // Where this is refused it is so with what is kept next.
      api.SetValue('cmi.completion_status', 'incomplete')
      api.Commit('')
    }
    return {
      kept: api.GetValue('cmi.suspend_data'),
      counts,
      finished,
      name: api.GetValue('cmi.learner_name'),
      wayBack: '',
    }
  }

  async keep(attempt: Attempt): Promise<void> {
    const api = this.#api
    if (api === null) return
    const { share, pass, progress, done, kept } = attempt
    const set = (element: string, value: string) => must(api, api.SetValue(element, value))
    set('cmi.suspend_data', kept.slice(0, KEPT_MOST))
    set('cmi.progress_measure', shared(progress))
    if (share !== null && (progress > 0 || done)) {
      set('cmi.score.min', '0')
      set('cmi.score.max', '100')
      set('cmi.score.raw', `${Math.round(share * 10_000) / 100}`)
      set('cmi.score.scaled', shared(share))
    }
    for (const answered of this.#untold.of(attempt)) this.#tell(api, answered)
    if (done) {
      set('cmi.completion_status', 'completed')
      if (share !== null) set('cmi.success_status', share >= pass ? 'passed' : 'failed')
    }
    must(api, api.Commit(''))
  }

  #tell(api: Api, answered: Answered): void {
    const place = `cmi.interactions.${this.#place}`
    this.#place += 1
    const { step, title, credit, points, took, at } = answered
    const { type, response, patterns } = interaction(answered)
    const set = (element: string, value: string) => api.SetValue(`${place}.${element}`, value)
    set('id', `urn:stageohm:step:${step}`)
    set('type', type)
    set('timestamp', new Date(at).toISOString().replace(/\.\d+Z$/, 'Z'))
    set('weighting', decimal(points))
    patterns.forEach((right, at) => set(`correct_responses.${at}.pattern`, right.slice(0, STRING)))
    set('learner_response', response.slice(0, STRING))
    set('result', verdict(credit))
    set('latency', duration(took))
    set('description', title.slice(0, 250))
  }

  async end(): Promise<void> {
    const api = this.#api
    if (api === null || !this.#isFirstEnd()) return
    api.SetValue('cmi.session_time', duration(Date.now() - this.#from))
    // Also where it is finished: another begin would be another attempt, and could lower this one.
    api.SetValue('cmi.exit', 'suspend')
    api.Commit('')
    api.Terminate('')
  }
}

function verdict(credit: number | null): string {
  if (credit === null) return 'neutral'
  return credit >= 1 ? 'correct' : credit <= 0 ? 'incorrect' : shared(credit)
}

function must(api: Api, answer: string): void {
  if (`${answer}` === 'true') return
  const code = api.GetLastError()
  throw new Error(api.GetErrorString(code) || `error ${code}`)
}

/** A share to seven decimals, as its type has it. */
function shared(share: number): string {
  return decimal(Number(Math.min(Math.max(share, 0), 1).toFixed(7)))
}

launch(new Scorm2004())
