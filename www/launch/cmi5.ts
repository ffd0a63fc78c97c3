// cmi5 (AICC, cmi5 Specification Profile for xAPI, Quartz, 1st edition, 2016), over xAPI 1.0.3.

import { launch } from './launch'
import { once, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Answered, type Attempt } from './messages'
import { duration } from './times'

const VERBS = 'http://adlnet.gov/expapi/verbs/'
/** The category of what cmi5 itself defines, and that of what decides on passing. */
const CMI5 = 'https://w3id.org/xapi/cmi5/context/categories/cmi5'
const MOVE_ON = 'https://w3id.org/xapi/cmi5/context/categories/moveon'
const MASTERY = 'https://w3id.org/xapi/cmi5/context/extensions/masteryscore'
/** The documents of a learning system's state. */
const LAUNCH_DATA = 'LMS.LaunchData'
const KEPT = 'stageohm'

interface LaunchData {
  readonly contextTemplate: Readonly<Record<string, unknown>>
  readonly launchMode: 'Normal' | 'Browse' | 'Review'
  readonly masteryScore?: number
  readonly returnURL?: string
}

/** What is kept beside the learning system's own documents. */
interface Kept {
  readonly kept: string
  /** How many answers were told, and what was said once for all. */
  readonly told: number
  readonly completed: boolean
  readonly judged: boolean
}

interface Extra {
  readonly result?: unknown
  readonly object?: unknown
  readonly categories?: readonly string[]
  readonly extensions?: Readonly<Record<string, unknown>>
}

class Cmi5 implements LearningSystem {
  readonly #launched = new URLSearchParams(location.search)
  readonly #isFirstEnd = once()
  readonly #from = Date.now()
  #token = ''
  #data: LaunchData | null = null
  #told = 0
  #isCompleted = false
  #isJudged = false

  async begin(): Promise<Begun> {
    const fetched = await fetch(this.#given('fetch'), { method: 'POST' })
    const { 'auth-token': token } = (await fetched.json()) as { readonly 'auth-token'?: string }
    if (token === undefined) throw new Error('it gave no token')
    this.#token = token
    const data = (await this.#state(LAUNCH_DATA).then(answer => answer.json())) as LaunchData
    this.#data = data
    // As the standard asks: preferences are read before anything is said.
    await this.#ask(`agents/profile?agent=${encodeURIComponent(this.#given('actor'))}&profileId=cmi5LearnerPreferences`)
    await this.#say('initialized', 'initialized', { categories: [CMI5] })
    const counts = data.launchMode === 'Normal'
    const kept = await this.#state(KEPT)
    const left = kept.ok ? ((await kept.json()) as Partial<Kept>) : {}
    this.#told = left.told ?? 0
    this.#isCompleted = left.completed ?? false
    this.#isJudged = left.judged ?? false
    const { name = '' } = JSON.parse(this.#given('actor')) as { readonly name?: string }
    return { kept: left.kept ?? '', counts, name }
  }

  async keep(attempt: Attempt): Promise<void> {
    for (const answered of attempt.answered.slice(this.#told)) {
      await this.#tell(answered)
      this.#told += 1
    }
    if (attempt.done) await this.#finish(attempt)
    const document: Kept = {
      kept: attempt.kept.slice(0, KEPT_MOST),
      told: this.#told,
      completed: this.#isCompleted,
      judged: this.#isJudged,
    }
    must(await this.#state(KEPT, { method: 'PUT', body: JSON.stringify(document) }))
  }

  /** Each of these is said once, however many sessions there are. */
  async #finish(attempt: Attempt): Promise<void> {
    const took = duration(Date.now() - this.#from)
    if (!this.#isCompleted) {
      this.#isCompleted = true
      await this.#say('completed', 'completed', {
        result: { completion: true, duration: took },
        categories: [CMI5, MOVE_ON],
      })
    }
    if (this.#isJudged) return
    this.#isJudged = true
    const mastery = this.#data?.masteryScore
    const success = attempt.share >= (mastery ?? attempt.pass)
    const scaled = Math.min(Math.max(attempt.share, 0), 1)
    await this.#say(success ? 'passed' : 'failed', success ? 'passed' : 'failed', {
      result: { score: { scaled }, success, duration: took },
      categories: [CMI5, MOVE_ON],
      ...(mastery === undefined ? {} : { extensions: { [MASTERY]: mastery } }),
    })
  }

  async #tell({ step, title, response, right, credit, took }: Answered): Promise<void> {
    const object = {
      objectType: 'Activity',
      id: `${this.#given('activityId')}/step/${step}`,
      definition: {
        type: 'http://adlnet.gov/expapi/activities/cmi.interaction',
        interactionType: 'other',
        name: { und: title },
        correctResponsesPattern: [right],
      },
    }
    const result = { response, success: credit >= 1, score: { scaled: credit }, duration: duration(took) }
    await this.#say('answered', 'answered', { object, result })
  }

  end(): void {
    if (this.#data === null || !this.#isFirstEnd()) return
    const result = { duration: duration(Date.now() - this.#from) }
    void this.#say('terminated', 'terminated', { result, categories: [CMI5] }, true)
  }

  #given(name: string): string {
    const given = this.#launched.get(name)
    if (given === null) throw new Error(`it said no ${name}`)
    return given
  }

  #state(id: string, init: RequestInit = {}): Promise<Response> {
    const place = new URLSearchParams({
      stateId: id,
      activityId: this.#given('activityId'),
      agent: this.#given('actor'),
      registration: this.#given('registration'),
    })
    return this.#ask(`activities/state?${place}`, init)
  }

  #ask(path: string, init: RequestInit = {}): Promise<Response> {
    const endpoint = this.#given('endpoint').replace(/\/?$/, '/')
    return fetch(endpoint + path, {
      ...init,
      headers: {
        Authorization: `Basic ${this.#token}`,
        'X-Experience-API-Version': '1.0.3',
        ...(init.body === undefined ? {} : { 'Content-Type': 'application/json' }),
      },
    })
  }

  async #say(verb: string, shown: string, extra: Extra, isLast = false): Promise<void> {
    const template = this.#data?.contextTemplate ?? {}
    const { contextActivities = {}, extensions = {} } = template as {
      readonly contextActivities?: { readonly category?: readonly unknown[] }
      readonly extensions?: Readonly<Record<string, unknown>>
    }
    const category = [...(contextActivities.category ?? []), ...(extra.categories ?? []).map(id => ({ id }))]
    const statement = {
      id: crypto.randomUUID(),
      timestamp: new Date().toISOString(),
      actor: JSON.parse(this.#given('actor')) as unknown,
      verb: { id: VERBS + verb, display: { en: shown } },
      object: extra.object ?? { objectType: 'Activity', id: this.#given('activityId') },
      ...(extra.result === undefined ? {} : { result: extra.result }),
      context: {
        ...template,
        registration: this.#given('registration'),
        contextActivities: { ...contextActivities, ...(category.length > 0 ? { category } : {}) },
        extensions: { ...extensions, ...extra.extensions },
      },
    }
    // What is said last has to outlive the page.
    const body = JSON.stringify(statement)
    must(await this.#ask('statements', { method: 'POST', body, keepalive: isLast }))
  }
}

function must(answer: Response): void {
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`)
}

launch(new Cmi5())
