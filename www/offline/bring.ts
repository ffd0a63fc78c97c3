import { files, filesToKeep, own } from './names'

/**
 * Brings this version in whole. Each file has to be the one that was built: one
 * that is missing, cut short, of another version, or a network's log-in page in
 * its place ends it, and the version before stays. What has come so far is kept
 * for the next try, since it is known to be right.
 */
export async function bringAll(): Promise<void> {
  const cache = await caches.open(own)
  const missing = await Promise.all((await filesToKeep()).map(async file => ((await cache.match(file)) ? [] : [file])))
  await bring(missing.flat())
}

/** The same from the host again, whatever is kept. */
export async function bringAnew(): Promise<void> {
  await bring(await filesToKeep())
}

async function bring(addresses: readonly string[]): Promise<void> {
  const cache = await caches.open(own)
  await Promise.all(addresses.map(async address => cache.put(address, await fetchBuilt(address))))
}

/** A file from the host, only if it is the one that was built. */
export async function fetchBuilt(address: string): Promise<Response> {
  // Past the browser's own cache, which may still hold the version before.
  const response = await fetch(address, { cache: 'reload', integrity: files.get(address) ?? '' })
  if (!response.ok) throw new Error(`${address}: ${response.status}`)
  return direct(response)
}

/** A page may not be opened from an answer that came by another address. */
export async function direct(response: Response): Promise<Response> {
  return response.redirected ? whole(response) : response
}

/** The same answer with all of its body, as if it had come from where it was asked for. */
export async function whole(response: Response): Promise<Response> {
  const { status, headers } = response
  return new Response(await response.blob(), { status, headers })
}
