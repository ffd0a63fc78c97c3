// Keeps the served page at hand, so that it opens without a network after one
// visit. A new version is brought in whole and waits until it is asked to take
// over; a page that is open meanwhile goes on with the files of its own.

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
  await Promise.all(
    FILES.map(async file => {
      // Past the browser's own cache, which may still hold the version before.
      const response = await fetch(file, { cache: 'reload' })
      if (!response.ok) throw new Error(`${file}: ${response.status}`)
      // A page may not be opened from an answer that came by another address.
      const { status, headers } = response
      const own = response.redirected ? new Response(await response.blob(), { status, headers }) : response
      await cache.put(file, own)
    }),
  )
}

/** Pages of the version before still find their files, until they are closed. */
async function dropOthers(): Promise<void> {
  const pages = await scope.clients.matchAll({ type: 'window', includeUncontrolled: true })
  if (pages.length < 2) {
    const others = (await ourCaches()).filter(other => other !== cacheName)
    await Promise.all(others.map(other => caches.delete(other)))
  }
  await scope.clients.claim()
}

async function answer(request: Request): Promise<Response> {
  for (const name of [cacheName, ...(await ourCaches())]) {
    const cache = await caches.open(name)
    const kept = await cache.match(request, { ignoreSearch: true, ignoreVary: true })
    if (kept !== undefined) return kept
  }
  return fetch(request)
}

async function ourCaches(): Promise<string[]> {
  return (await caches.keys()).filter(name => name.startsWith(ours))
}
