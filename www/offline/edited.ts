// Pages that people edit on the host, such as lessons: the newest wins, and the
// copy kept here serves where there is no network.

import { addressOf, edited, editedCache, files } from './names'
import { fetchBuilt } from './bring'

/** How long a poor network may take before the kept copy is shown, in milliseconds. */
const PATIENCE = 5000
/** A page larger than this is no lesson, in bytes. */
const LARGEST = 1_000_000

export async function answerEdited(request: Request, keepAlive: (work: Promise<unknown>) => void): Promise<Response> {
  // With a query the same page may say something else.
  const isPlain = new URL(request.url).search === '' || edited.includes(addressOf(request))
  const kept = isPlain ? await (await caches.open(editedCache)).match(addressOf(request)) : undefined
  const fetched = fetch(request)
  if (isPlain) keepAlive(fetched.then(response => keep(request, response.clone())).catch(() => undefined))
  if (kept === undefined) return fetched
  const late = new Promise<Response>(resolve => setTimeout(resolve, PATIENCE, kept))
  const good = fetched.then(response => (isTrouble(response) ? kept : response))
  return Promise.race([good, late]).catch(() => kept)
}

/** Those that come with the page, so that they open without a network too. */
export async function bringEdited(): Promise<void> {
  const bring = async (address: string) => keep(new Request(address), await fetch(address, { cache: 'reload' }))
  await Promise.all(edited.map(address => bring(address).catch(() => undefined)))
}

async function keep(request: Request, response: Response): Promise<void> {
  const address = addressOf(request)
  const isPage = request.mode === 'navigate' && response.headers.get('content-type')?.startsWith('text/html') === true
  if (!response.ok || response.redirected || !(isPage || edited.includes(address))) return
  const { status, headers } = response
  const body = await response.blob()
  if (body.size > LARGEST || !(await isOurHost())) return
  await (await caches.open(editedCache)).put(address, new Response(body, { status, headers }))
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
