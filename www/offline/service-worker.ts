// Keeps the served page at hand, so that it opens without a network after one
// visit. A new version is brought in whole, waits until it is asked to take
// over, and has to start once before the one before it goes.

import { bringAll, bringAnew, direct, fetchBuilt } from './bring'
import { answerEdited, bringEdited } from './edited'
import { START, addressOf, edited, files, folder, noteLanguage, own, scope, versions } from './names'
import { beginTrial, hasFailed, isStranded, mayOpen, noteFailed, noteStarted, versionBefore } from './trial'

/** What a page tells: the version that waits is wanted, or whether the page of these files started. */
type Message =
  | 'take-over'
  | { readonly started: readonly string[]; readonly language?: string }
  | { readonly failed: readonly string[] }

scope.addEventListener('install', event => event.waitUntil(install()))
scope.addEventListener('activate', event => event.waitUntil(scope.clients.claim()))
scope.addEventListener('message', event => {
  const heard = hear(event.data as Message)
  // A page may wait until it has been heard, and is told whether there is a version before.
  const reply = async () => event.ports[0]?.postMessage((await versionBefore()) === null ? 'none' : 'before')
  event.waitUntil(heard.finally(() => reply().catch(() => undefined)))
})
scope.addEventListener('fetch', event => {
  const { request } = event
  if (request.method !== 'GET' || !request.url.startsWith(folder)) return
  // What a page wants from the host itself.
  if (request.cache === 'reload') return
  // Whatever goes wrong here, such as a storage that is full, the network may still have it.
  const answered = answer(request, work => event.waitUntil(work)).catch(() => fetch(request))
  event.respondWith(answered)
})

async function install(): Promise<void> {
  await bringAll()
  await bringEdited()
  await beginTrial()
  // Whoever has nothing that starts need not ask for it.
  if (await isStranded()) await scope.skipWaiting()
}

async function hear(message: Message): Promise<void> {
  if (message === 'take-over') return scope.skipWaiting()
  if ('started' in message && areOurs(message.started)) {
    if (message.language !== undefined) await noteLanguage(message.language)
    // It may have started from the network, past something that was kept and is broken or gone.
    await ((await hasFailed()) ? bringAnew() : bringAll())
    await noteStarted()
    await dropOthers()
  }
  if ('failed' in message && areOurs(message.failed)) await noteFailed()
}

/** Versions may share a file; only a page all of whose files are of this one is of this one. */
function areOurs(addresses: readonly string[]): boolean {
  return addresses.length > 0 && addresses.every(address => files.has(address))
}

/** Pages of the version before still find their files, until they are closed; and the next one may be on its way. */
async function dropOthers(): Promise<void> {
  const pages = await scope.clients.matchAll({ type: 'window', includeUncontrolled: true })
  const { installing, waiting } = scope.registration
  if (pages.length > 1 || installing !== null || waiting !== null) return
  const others = (await versions()).filter(name => name !== own)
  await Promise.all(others.map(name => caches.delete(name)))
}

async function answer(request: Request, keepAlive: (work: Promise<unknown>) => void): Promise<Response> {
  const address = addressOf(request)
  if (address === START && request.mode === 'navigate') return answerStart(request)
  if (files.has(address)) {
    const anew = (await hasFailed()) ? await fetchBuilt(address).catch(() => undefined) : undefined
    return anew ?? (await kept(address)) ?? fetch(request)
  }
  if (request.mode === 'navigate' || edited.includes(address)) return answerEdited(request, keepAlive)
  // A page of the version before asks for its own files.
  return (await kept(address)) ?? fetch(request)
}

/** This version, or what comes in its place where it does not start: another one that is kept, or what the host has. */
async function answerStart(request: Request): Promise<Response> {
  // A frame does not tell that it started, so it does not count as a try.
  if (await mayOpen(request.destination !== 'iframe')) return (await kept(START)) ?? fetch(request)
  const before = await versionBefore()
  return (before === null ? undefined : await kept(START, [before])) ?? newest(request)
}

/** What the host has now; without a network what is kept after all. */
async function newest(request: Request): Promise<Response> {
  const response = await fetch(request.url, { cache: 'reload' }).catch(() => undefined)
  return response?.ok ? direct(response) : ((await kept(addressOf(request))) ?? Response.error())
}

async function kept(address: string, names?: readonly string[]): Promise<Response | undefined> {
  for (const name of names ?? (await versions())) {
    const found = await (await caches.open(name)).match(address, { ignoreSearch: true, ignoreVary: true })
    if (found !== undefined) return found
  }
  return undefined
}
