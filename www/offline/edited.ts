// Pages that people edit on the host, such as lessons: the newest wins, and the
// copy kept here serves where there is no network.

import { addressOf, edited, editedCache, files, folder } from './names'
import { fetchBuilt, whole } from './bring'

/** How long a poor network may take before the kept copy is shown, in milliseconds. */
const PATIENCE = 5000
/** A page larger than this is no lesson, in bytes. */
const LARGEST = 1_000_000

export async function answerEdited(request: Request, keepAlive: (work: Promise<unknown>) => void): Promise<Response> {
  // With a query the same page may say something else.
  const isPlain = new URL(request.url).search === '' || edited.includes(addressOf(request))
  if (!isPlain) return fetch(request)
  const kept = await (await caches.open(editedCache)).match(addressOf(request))
  const fetched = fetch(request)
  keepAlive(fetched.then(response => note(request, response.clone())).catch(() => undefined))
  if (kept === undefined) return fetched
  const late = new Promise<Response>(resolve => setTimeout(resolve, PATIENCE, kept))
  const good = fetched.then(response => {
    if (isTrouble(response)) return kept
    // What is none, such as the way to another address, the browser takes as it is.
    return response.ok ? whole(response) : response
  })
  return Promise.race([good, late]).catch(() => kept)
}

/** Those that come with the page, so that they open without a network too. */
export async function bringEdited(): Promise<void> {
  const bring = async (address: string) => note(new Request(address), await fetch(address, { cache: 'reload' }))
  await Promise.all(edited.map(address => bring(address).catch(() => undefined)))
}

/** Keeps what the host has, and lets go of what it has no more. */
async function note(request: Request, response: Response): Promise<void> {
  if (response.status === 404 || response.status === 410) return letGo(request)
  const address = addressOf(request)
  const isPage = request.mode === 'navigate' && response.headers.get('content-type')?.startsWith('text/html') === true
  if (!response.ok || !(isPage || edited.includes(address)) || !isOurs(response)) return
  const copy = await whole(response)
  if ((await copy.clone().blob()).size > LARGEST || !(await isOurHost())) return
  const cache = await caches.open(editedCache)
  // A host may serve `lesson.html` as `lesson`, and the reader may ask for either.
  const names = new Set([address, addressOf(response)])
  await Promise.all([...names].map(name => cache.put(name, copy.clone())))
}

async function letGo(request: Request): Promise<void> {
  const cache = await caches.open(editedCache)
  if ((await cache.match(addressOf(request))) !== undefined && (await isOurHost()))
    await cache.delete(addressOf(request))
}

/** Whether an answer came from this folder in the end. */
function isOurs({ url }: Response): boolean {
  return url.startsWith(folder)
}

/** A network that asks for a log-in answers in the host's place; only the host has our files. */
async function isOurHost(): Promise<boolean> {
  const [smallest] = [...files.keys()].filter(file => file.endsWith('.webmanifest'))
  return (
    smallest !== undefined &&
    fetchBuilt(smallest).then(
      () => true,
      () => false,
    )
  )
}

/** The host has trouble of its own; what it says is gone is gone. */
function isTrouble({ status }: Response): boolean {
  return status >= 500
}
