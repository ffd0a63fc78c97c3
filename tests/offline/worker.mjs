// The service worker as it was built, in a browser that is hardly more than its
// caches: so every mishap of an upload can be tried in no time. That it does the
// same in a real one, `tests/browser/uploads.spec.ts` tries for single files.

import { createHash } from 'node:crypto'
import { createContext, runInContext } from 'node:vm'

const ORIGIN = 'https://host.example/page/'

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
}

/** A host of files by their names, or one page in the place of all of them. */
export class Host {
  /** @type {ReadonlyMap<string, Buffer>} */
  files = new Map()
  portal = null
  /** What it answers where it has not got a file. */
  status = 404
  isThere = true

  fetch = async (request, { integrity = '' } = {}) => {
    if (!this.isThere) throw new TypeError('no network')
    const { pathname } = new URL(typeof request === 'string' ? request : request.url)
    const name = pathname.slice(new URL(ORIGIN).pathname.length) || 'index.html'
    const body = this.portal ?? this.files.get(name)
    // As the browser does, before anybody sees the answer.
    if (integrity !== '' && body !== undefined && integrity !== `sha256-${hash(body)}`) throw new TypeError('integrity')
    const type = name.endsWith('.html') ? { 'content-type': 'text/html' } : {}
    return new Response(body ?? 'not here', { status: body === undefined ? this.status : 200, headers: type })
  }
}

/** A service worker of the host's own script, with these caches. */
export class Worker {
  #heard = new Map()
  skipped = false

  constructor(host, caches) {
    const scope = {
      registration: { scope: ORIGIN },
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
      setTimeout,
      Date,
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
  async ask(name, mode = 'no-cors') {
    const request = { url: ORIGIN + name, method: 'GET', mode, cache: 'default' }
    let answer
    const later = []
    this.#heard.get('fetch')({ request, respondWith: work => (answer = work), waitUntil: work => later.push(work) })
    const response = await answer
    const body = response === undefined ? undefined : Buffer.from(await response.arrayBuffer())
    await Promise.all(later)
    return body
  }

  async #tell(type, event) {
    const work = []
    this.#heard.get(type)({ ...event, waitUntil: promise => work.push(promise) })
    await Promise.all(work)
  }
}

/** The addresses that a page names when it has started: its own files. */
export function pageOf(files) {
  const page = files.get('index.html').toString()
  return [...page.matchAll(/(?:src|href)="?(?:\.\/)?([\w./-]+\.\w+)/g)].map(([, name]) => ORIGIN + name)
}

function hash(body) {
  return createHash('sha256').update(body).digest('base64')
}
