// cmi5 (AICC, cmi5 Specification Profile for xAPI, Quartz, 1st edition, 2016), over xAPI 1.0.3.

import { v4 } from 'uuid'
import { launch } from './launch'
import { once, Untold, type Begun, type LearningSystem } from './learning-system'
import { KEPT_MOST, type Attempt } from './messages'
import { languageTag } from './named'
import { answered, COMPLETED, judged, statement, type Said } from './statement'
import { duration } from './times'

/** The category of what cmi5 itself defines, and that of what decides on passing. */
const CMI5 = 'https://w3id.org/xapi/cmi5/context/categories/cmi5'
const MOVE_ON = 'https://w3id.org/xapi/cmi5/context/categories/moveon'
const MASTERY = 'https://w3id.org/xapi/cmi5/context/extensions/masteryscore'
/** The documents of a learning system's state. */
const LAUNCH_DATA = 'LMS.LaunchData'
const KEPT = 'stageohm'
/** That of the texts of the lesson, which the page is in. */
const LANGUAGE = languageTag(document.documentElement.lang)

interface LaunchData {
  readonly contextTemplate: Readonly<Record<string, unknown>>
  readonly launchMode: 'Normal' | 'Browse' | 'Review'
  readonly masteryScore?: number
  readonly returnURL?: string
}

/** What is kept beside the learning system's own documents. */
interface Kept {
  readonly kept: string
  /** What was said once for all. */
  readonly completed: boolean
  readonly judged: boolean
}

interface Extra {
  /** How long it took, in milliseconds. */
  readonly took?: number
  readonly categories?: readonly string[]
  readonly extensions?: Readonly<Record<string, unknown>>
  /** Whether it is said last. */
  readonly isLast?: boolean
}

class Cmi5 implements LearningSystem {
  readonly #launched = new URLSearchParams(location.search)
  readonly #isFirstEnd = once()
  readonly #from = Date.now()
  readonly #untold = new Untold()
  #token = ''
  #data: LaunchData | null = null
  #isInitialized = false
  #isCompleted = false
  #isJudged = false

  async begin(): Promise<Begun> {
    // It is given once.
    if (this.#token === '') this.#token = await this.#fetchToken()
    const launched = await this.#state(LAUNCH_DATA)
    must(launched)
    const data = (await launched.json()) as LaunchData
    // As the standard asks: preferences are read before anything is said.
    await this.#ask(`agents/profile?agent=${encodeURIComponent(this.#given('actor'))}&profileId=cmi5LearnerPreferences`)
    const kept = await this.#state(KEPT)
    // Only what is not there may be begun anew.
    if (kept.status !== 404) must(kept)
    const left = kept.ok ? ((await kept.json()) as Partial<Kept>) : {}
    this.#isCompleted = left.completed ?? false
    this.#isJudged = left.judged ?? false
    this.#data = data
    // Where this is refused it is said with what is kept next.
    await this.#initialize().catch(() => undefined)
    const { name = '' } = JSON.parse(this.#given('actor')) as { readonly name?: string }
    return {
      kept: left.kept ?? '',
      counts: data.launchMode === 'Normal',
      finished: this.#isCompleted,
      name,
      wayBack: webAddress(data.returnURL),
    }
  }

  async #fetchToken(): Promise<string> {
    const fetched = await fetch(this.#given('fetch'), { method: 'POST' })
    const { 'auth-token': token } = (await fetched.json()) as { readonly 'auth-token'?: string }
    if (token === undefined) throw new Error('it gave no token')
    return token
  }

  /** Nothing else may be said before. */
  async #initialize(): Promise<void> {
    if (this.#isInitialized) return
    await this.#say({ verb: 'initialized' }, { categories: [CMI5] })
    this.#isInitialized = true
  }

  async keep(attempt: Attempt): Promise<void> {
    await this.#initialize()
    for (const answer of this.#untold.of(attempt))
      await this.#say(answered(this.#given('activityId'), answer, LANGUAGE), { took: answer.took })
    if (attempt.done) await this.#finish(attempt)
    const document: Kept = {
      kept: attempt.kept.slice(0, KEPT_MOST),
      completed: this.#isCompleted,
      judged: this.#isJudged,
    }
    must(await this.#state(KEPT, { method: 'PUT', body: JSON.stringify(document) }))
  }

  /** Each of these is said once, however many sessions there are. */
  async #finish(attempt: Attempt): Promise<void> {
    const took = this.#took()
    if (!this.#isCompleted) {
      await this.#say(COMPLETED, { took, categories: [CMI5, MOVE_ON] })
      this.#isCompleted = true
    }
    if (this.#isJudged || attempt.share === null) return
    const mastery = this.#data?.masteryScore
    await this.#say(judged(attempt.share, mastery ?? attempt.pass), {
      took,
      categories: [CMI5, MOVE_ON],
      ...(mastery === undefined ? {} : { extensions: { [MASTERY]: mastery } }),
    })
    this.#isJudged = true
  }

  async end(): Promise<void> {
    if (!this.#isInitialized || !this.#isFirstEnd()) return
    await this.#say({ verb: 'terminated' }, { took: this.#took(), categories: [CMI5], isLast: true })
  }

  #took(): number {
    return Date.now() - this.#from
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

  async #say(said: Said, { took, categories = [], extensions: more, isLast = false }: Extra): Promise<void> {
    const template = this.#data?.contextTemplate ?? {}
    const { contextActivities = {}, extensions = {} } = template as {
      readonly contextActivities?: { readonly category?: readonly unknown[] }
      readonly extensions?: Readonly<Record<string, unknown>>
    }
    const category = [...(contextActivities.category ?? []), ...categories.map(id => ({ id }))]
    const timed = took === undefined ? said : { ...said, result: { ...said.result, duration: duration(took) } }
    const whole = statement(timed, {
      id: v4(),
      timestamp: new Date().toISOString(),
      actor: JSON.parse(this.#given('actor')) as unknown,
      lesson: { objectType: 'Activity', id: this.#given('activityId') },
      context: {
        ...template,
        registration: this.#given('registration'),
        contextActivities: { ...contextActivities, ...(category.length > 0 ? { category } : {}) },
        extensions: { ...extensions, ...more },
      },
    })
    // What is said last has to outlive the page.
    must(await this.#ask('statements', { method: 'POST', body: JSON.stringify(whole), keepalive: isLast }))
  }
}

/** An address of the web; what else a learning system gives for one leads nowhere. */
function webAddress(address: string | undefined): string {
  try {
    const { protocol, href } = new URL(address ?? '')
    return protocol === 'https:' || protocol === 'http:' ? href : ''
  } catch {
    return ''
  }
}

function must(answer: Response): void {
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`)
}

launch(new Cmi5())
