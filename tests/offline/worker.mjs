// The service worker as it was built, in a browser that is hardly more than its
// caches: so every mishap of an upload can be tried in no time. That it does the
// same in a real one, `tests/browser/uploads.spec.ts` tries for single files.

import { createHash } from 'node:crypto'
import { createContext, runInContext } from 'node:vm'
import { FIRST } from '../../tools/place-engines.mjs'

const ORIGIN = 'https://host.example/page/'

/** The name of a file by its address. */
export const fileOf = address => address.slice(ORIGIN.length)

/** Keeps answers as the browser's own caches do, by their address alone. */
export class Caches {
  #all = new Map()
  isFull = false

  async open(name) {
    if (!this.#all.has(name)) this.#all.set(name, new Cache(this))
    return this.#all.get(name)
  }

  async keys() {
    return [...this.#all.keys()]
  }

  async has(name) {
    return this.#all.has(name)
  }

  async delete(name) {
    return this.#all.delete(name)
  }
}

class Cache {
  #kept = new Map()
  #caches

  constructor(caches) {
    this.#caches = caches
  }

  async match(address) {
    return this.#kept.get(String(address))?.clone()
  }

  async put(address, response) {
    if (this.#caches.isFull) throw new DOMException('full', 'QuotaExceededError')
    this.#kept.set(String(address), response)
  }

  async delete(address) {
    return this.#kept.delete(String(address))
  }

  addresses() {
    return [...this.#kept.keys()]
  }
}

/** An answer that knows its address, as those that came from a host do. */
class Answer extends Response {
  #address

  constructor(body, init, address) {
    super(body, init)
    this.#address = address
  }

  get url() {
    return this.#address
  }

  clone() {
    const { status, headers } = this
    return new Answer(super.clone().body, { status, headers }, this.#address)
  }
}

/** A host of files by their names, or one page in the place of all of them. */
export class Host {
  /** @type {ReadonlyMap<string, Buffer>} */
  files = new Map()
  portal = null
  /** What it answers where it has not got a file. */
  status = 404
  isThere = true
  /** Whether it serves `lesson.html` as `lesson`, and sends on who asks for the former. */
  leavesOutEnding = false
  /** Whether what it sends stops after its first bytes. */
  stalls = false
  /** How much later it is than when the test began, in milliseconds. */
  later = 0

  fetch = async (request, { integrity = '' } = {}) => {
    if (!this.isThere) throw new TypeError('no network')
    const address = typeof request === 'string' ? request : request.url
    const asked = new URL(address).pathname.slice(new URL(ORIGIN).pathname.length) || 'index.html'
    const ends = this.leavesOutEnding && /^[^.]+$/.test(asked)
    const name = ends ? `${asked}.html` : asked
    const body = this.portal ?? this.files.get(name)
    // As the browser does, before anybody sees the answer.
    if (integrity !== '' && body !== undefined && integrity !== `sha256-${hash(body)}`) throw new TypeError('integrity')
    const headers = name.endsWith('.html') ? { 'content-type': 'text/html' } : {}
    const from = this.leavesOutEnding && asked !== 'index.html' ? address.replace(/\.html$/, '') : address
    if (body === undefined) return new Answer('not here', { status: this.status, headers }, from)
    return new Answer(this.stalls ? stalled(body) : body, { status: 200, headers }, from)
  }
}

/** A service worker of the host's own script, with these caches. */
export class Worker {
  #heard = new Map()
  skipped = false

  /** `coming` tells of a newer version that is on its way, as a registration does. */
  constructor(host, caches, coming = {}) {
    const scope = {
      registration: { scope: ORIGIN, installing: null, waiting: null, ...coming },
      addEventListener: (type, listener) => this.#heard.set(type, listener),
      skipWaiting: async () => {
        this.skipped = true
      },
      clients: { claim: async () => undefined, matchAll: async () => [{}] },
    }
    const globals = {
      self: scope,
      caches,
      fetch: host.fetch,
      Response,
      Request,
      URL,
      Promise,
      // Nobody waits as long as a reader would.
      setTimeout: (work, time, ...given) => setTimeout(work, time / 50, ...given),
      Date: { now: () => Date.now() + host.later },
      console,
    }
    runInContext(host.files.get('service-worker.js').toString(), createContext(globals))
  }

  async install() {
    await this.#tell('install', {})
  }

  async activate() {
    await this.#tell('activate', {})
  }

  async hear(data) {
    await this.#tell('message', { data, ports: [] })
  }

  /** What a page gets for a file; undefined where the worker leaves it to the browser. */
  async ask(name, mode = 'no-cors', toTheEnd = true) {
    const request = { url: ORIGIN + name, method: 'GET', mode, cache: 'default' }
    let answer
    const later = []
    this.#heard.get('fetch')({ request, respondWith: work => (answer = work), waitUntil: work => later.push(work) })
    const response = await answer
    const body = response === undefined ? undefined : Buffer.from(await response.arrayBuffer())
    if (toTheEnd) await Promise.all(later)
    return body
  }

  async #tell(type, event) {
    const work = []
    this.#heard.get(type)({ ...event, waitUntil: promise => work.push(promise) })
    await Promise.all(work)
  }
}

/** The addresses that a page names when it has started: its own files, without those that answer a first visit. */
export function pageOf(files) {
  const page = files.get('index.html').toString()
  const named = [...page.matchAll(/(?:src|href)="?(?:\.\/)?([\w./-]+\.\w+)/g)].map(([, name]) => name)
  return named.filter(name => files.has(name) && !name.startsWith(FIRST)).map(name => ORIGIN + name)
}

/** The first bytes, and then nothing, for ever. */
function stalled(body) {
  return new ReadableStream({ start: stream => stream.enqueue(body.subarray(0, 10)) })
}

function hash(body) {
  return createHash('sha256').update(body).digest('base64')
}
