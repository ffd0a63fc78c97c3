// A small record store, as cmi5 has a learning system be one: it fetches, keeps documents,
// and takes statements in the order of the standard alone. What it refuses it notes.

import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { faultsOf } from '../fixtures/xapi-rules.mjs'

export interface Statement {
  readonly id: string
  readonly timestamp: string
  readonly verb: { readonly id: string }
  readonly object: { readonly id: string; readonly definition?: Readonly<Record<string, unknown>> }
  readonly result?: {
    readonly duration?: string
    readonly score?: { readonly scaled: number }
    readonly success?: boolean
    readonly completion?: boolean
    readonly response?: string
  }
  readonly context: {
    readonly registration: string
    readonly contextActivities?: { readonly category?: readonly { readonly id: string }[] }
    readonly extensions: Readonly<Record<string, unknown>>
  }
}

export const MASTERY = 'https://w3id.org/xapi/cmi5/context/extensions/masteryscore'
const SESSION = 'https://w3id.org/xapi/cmi5/context/extensions/sessionid'
const REGISTRATION = '00000000-0000-4000-8000-000000000001'
const ACTOR = JSON.stringify({ objectType: 'Agent', name: 'Lee', account: { homePage: 'http://host', name: 'lee' } })

export class RecordStore {
  readonly files: ReadonlyMap<string, Buffer>
  launchMode = 'Normal'
  /** Where a learner goes back to; nothing where that is not said. */
  returnURL: string | null = null
  /** Whether it has no room for a statement more. */
  isFull = false
  /** Whether it answers nothing but that it is out of order. */
  isDown = false
  statements: Statement[] = []
  readonly refused: string[] = []
  readonly #documents = new Map<string, string>()
  readonly #server = createServer((request, response) => void this.#answer(request, response))
  #isFetched = false

  constructor(files: ReadonlyMap<string, Buffer>) {
    this.files = files
  }

  async start(): Promise<void> {
    await new Promise<void>(done => this.#server.listen(0, '127.0.0.1', done))
  }

  async stop(): Promise<void> {
    this.#server.closeAllConnections()
    await new Promise<void>(done => this.#server.close(() => done()))
  }

  get #address(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/`
  }

  /** A place of this host. */
  place(path: string): string {
    return this.#address + path
  }

  /** Where a learner is sent, for a session of its own. */
  launch(): string {
    this.statements = []
    this.#isFetched = false
    const said = new URLSearchParams({
      endpoint: `${this.#address}xapi`,
      fetch: `${this.#address}fetch`,
      actor: ACTOR,
      registration: REGISTRATION,
      activityId: 'http://host/au',
    })
    return `${this.#address}index.html?${said}`
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const address = new URL(request.url ?? '/', this.#address)
    const pieces: Buffer[] = []
    for await (const piece of request) pieces.push(piece as Buffer)
    const body = Buffer.concat(pieces).toString()
    const give = (status: number, what?: unknown) => {
      response.statusCode = status
      response.end(what === undefined ? undefined : JSON.stringify(what))
    }
    const file = this.files.get(address.pathname.slice(1))
    if (file !== undefined) {
      const isPage = address.pathname.endsWith('.html')
      response.setHeader('Content-Type', isPage ? 'text/html; charset=utf-8' : 'text/javascript')
      response.end(file)
    } else if (address.pathname === '/courses') {
      response.setHeader('Content-Type', 'text/html; charset=utf-8')
      response.end('<!doctype html><link rel="icon" href="data:,"><title>Courses</title><h1>Your courses</h1>')
    } else if (address.pathname === '/fetch') {
      if (this.#isFetched || request.method !== 'POST') give(200, { 'error-code': '1' })
      else give(200, { 'auth-token': 'dGVzdA==' })
      this.#isFetched = true
    } else if (this.isDown) give(503)
    else if (request.headers.authorization !== 'Basic dGVzdA==') this.#refuse(give, 'a request without the token')
    else if (request.headers['x-experience-api-version'] !== '1.0.3') this.#refuse(give, 'another version')
    else if (address.pathname === '/xapi/agents/profile') give(404)
    else if (address.pathname === '/xapi/activities/state') this.#document(request.method, address, body, give)
    else if (address.pathname === '/xapi/statements') this.#take(JSON.parse(body) as Statement, give)
    else give(404)
  }

  #document(method: string | undefined, { searchParams }: URL, body: string, give: Give): void {
    const id = searchParams.get('stateId') ?? ''
    if (searchParams.get('agent') !== ACTOR || searchParams.get('registration') !== REGISTRATION)
      return this.#refuse(give, 'a document of somebody else')
    if (id === 'LMS.LaunchData') {
      if (method !== 'GET') return this.#refuse(give, 'launch data are not written')
      const contextTemplate = {
        contextActivities: { grouping: [{ id: 'http://host/course' }] },
        extensions: { [SESSION]: 'one' },
      }
      const wayBack = this.returnURL === null ? {} : { returnURL: this.returnURL }
      return give(200, { contextTemplate, launchMode: this.launchMode, masteryScore: 0.5, ...wayBack })
    }
    if (method === 'PUT') {
      this.#documents.set(id, body)
      return give(204)
    }
    const kept = this.#documents.get(id)
    if (kept === undefined) give(404)
    else give(200, JSON.parse(kept))
  }

  #take(statement: Statement, give: Give): void {
    if (this.isFull) return give(507)
    const verbs = this.statements.map(({ verb }) => nameOf(verb))
    const name = nameOf(statement.verb)
    const { context, result } = statement
    const is = (category: string) =>
      context.contextActivities?.category?.some(({ id }) => id.endsWith(`/${category}`)) === true
    const malformed = faultsOf(statement).map(place => [true, `a fault in its ${place}`] as const)
    const faults = [
      ...malformed,
      // By the numbers of the standard's requirements.
      [verbs.length === 0 && name !== 'initialized', '9.3.0.0-4'],
      [verbs.includes('terminated'), '9.3.0.0-5'],
      [verbs.includes(name) && name !== 'answered', '9.3.2.0-3'],
      [['completed', 'passed', 'failed', 'terminated'].includes(name) && result?.duration === undefined, '9.5.4.1'],
      [(result?.success ?? result?.completion) !== undefined && name !== 'answered' && !is('moveon'), '9.6.2.2-1'],
      [is('moveon') && !['completed', 'passed', 'failed'].includes(name), '9.6.2.2-2'],
      [name !== 'answered' && !is('cmi5'), '9.6.2.1-1'],
      [/^(passed|failed)$/.test(name) && context.extensions[MASTERY] !== 0.5, '9.6.3.2-2'],
      [name === 'passed' && (result?.score?.scaled ?? 0) < 0.5, '9.3.4.0-2'],
      [name === 'failed' && (result?.score?.scaled ?? 1) >= 0.5, '9.3.5.0-2'],
      [context.registration !== REGISTRATION || context.extensions[SESSION] !== 'one', '10.2.1.0-4'],
      [this.launchMode !== 'Normal' && /^(completed|passed|failed)$/.test(name), '10.2.2.0'],
      [
        !/^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/.test(statement.id) || Number.isNaN(Date.parse(statement.timestamp)),
        '4.1.0.0-1',
      ],
    ] as const
    const found = faults.flatMap(([isFault, number]) => (isFault ? [`${number} by ${name}`] : []))
    if (found.length > 0) return this.#refuse(give, found.join(', '))
    this.statements.push(statement)
    give(200, [statement.id])
  }

  #refuse(give: Give, why: string): void {
    this.refused.push(why)
    give(403)
  }
}

type Give = (status: number, what?: unknown) => void

export function nameOf({ id }: Statement['verb']): string {
  return id.replace(/.*\//, '')
}
