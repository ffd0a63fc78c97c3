// Keeps the served page at hand, so that it opens without a network after one
// visit. A new version is brought in whole and waits until it is asked to take
// over: no page ever runs on files of two versions.

export {}

/** Written in by the build: the files of the page, and a name for just these. */
declare const FILES: readonly string[]
declare const VERSION: string

const scope = self as unknown as ServiceWorkerGlobalScope
// Other pages of the same host have their own.
const ours = `stageohm ${scope.registration.scope} `
const cacheName = `${ours}${VERSION}`

scope.addEventListener('install', event => event.waitUntil(bring()))
scope.addEventListener('activate', event => event.waitUntil(dropOthers()))
scope.addEventListener('message', ({ data }) => {
  if (data === 'take-over') void scope.skipWaiting()
})
scope.addEventListener('fetch', event => {
  const { method, url } = event.request
  if (method === 'GET' && url.startsWith(scope.registration.scope)) event.respondWith(answer(event.request))
})

async function bring(): Promise<void> {
  const cache = await caches.open(cacheName)
  // Past the browser's own cache, which may still hold the version before.
  await cache.addAll(FILES.map(file => new Request(file, { cache: 'reload' })))
}

async function dropOthers(): Promise<void> {
  const names = await caches.keys()
  await Promise.all(
    names.filter(other => other.startsWith(ours) && other !== cacheName).map(other => caches.delete(other)),
  )
  await scope.clients.claim()
}

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(cacheName)
  return (await cache.match(request, { ignoreSearch: true })) ?? fetch(request)
}
