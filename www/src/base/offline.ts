// The served page installs what keeps it at hand without a network, and learns
// from it that a new version waits. A page in a frame of its own origin or from
// a file can have none, and does not need it.

import { language } from './language'
import { ownFiles } from './start-watch'

let waiting: ServiceWorker | null = null
let told: (() => void) | null = null

export function keepAtHand(): void {
  if (!mayBeKept()) return
  void install().catch(() => {
    // Refused, as by a host without https: the page works with its network.
  })
}

function mayBeKept(): boolean {
  // Only the served page names its manifest.
  return document.querySelector('link[rel=manifest]') !== null && window.top === window
}

/**
 * Whether this copy opens without a network: a saved file does, and a served page
 * once all of it is stored; `storing` is on its way, and `online` is none of these.
 */
export type Kept = 'file' | 'stored' | 'storing' | 'online'

export async function howKept(): Promise<Kept> {
  if (location.protocol === 'file:') return 'file'
  if (!mayBeKept()) return 'online'
  try {
    // What is installed may have been cleared since, so it is looked for.
    const { scope, active, installing, waiting } = (await navigator.serviceWorker.getRegistration()) ?? {}
    if (active?.state === 'activated' && scope !== undefined && (await areStored([scope, ...ownFiles()])))
      return 'stored'
    return (installing ?? waiting ?? active?.state === 'activating') ? 'storing' : 'online'
  } catch {
    // A browser that keeps nothing, or a page without https.
    return 'online'
  }
}

async function areStored(addresses: readonly string[]): Promise<boolean> {
  const found = await Promise.all(
    addresses.map(address => caches.match(address, { ignoreSearch: true, ignoreVary: true })),
  )
  return found.every(file => file !== undefined)
}

/** Calls `listener` when more may be stored than before, or less. */
export function whenKeptChanges(listener: () => void): () => void {
  const look = () => document.visibilityState === 'visible' && listener()
  document.addEventListener('visibilitychange', look)
  const worker = mayBeKept() ? navigator.serviceWorker : undefined
  worker?.addEventListener('controllerchange', listener)
  // It is ready, and in control, before it is all at work.
  let active: ServiceWorker | null = null
  void worker?.ready.then(registration => {
    active = registration.active
    active?.addEventListener('statechange', listener)
    listener()
  })
  void worker?.getRegistration().then(listener)
  return () => {
    document.removeEventListener('visibilitychange', look)
    worker?.removeEventListener('controllerchange', listener)
    active?.removeEventListener('statechange', listener)
  }
}

async function install(): Promise<void> {
  const registration = await navigator.serviceWorker.register('service-worker.js')
  void tellStarted()
  const look = () => {
    // The first version of all takes over by itself.
    if (navigator.serviceWorker.controller === null || registration.waiting === null) return
    waiting = registration.waiting
    told?.()
  }
  look()
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', look))
  // An installed page may be open for days.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void registration.update().catch(() => undefined)
  })
}

/** The version that is in use is known to start: the one before it can go. */
async function tellStarted(): Promise<void> {
  const { active } = await navigator.serviceWorker.ready
  active?.postMessage({ started: ownFiles(), language })
}

/** Calls `listener` once a new version waits. */
export function whenUpdated(listener: () => void): () => void {
  told = listener
  if (waiting !== null) listener()
  return () => {
    told = null
  }
}

/** Opens this very screen in the new version. */
export function takeOver(): void {
  // Another tab may have asked for it already.
  if (waiting === null || waiting.state === 'activated') return location.reload()
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
  waiting.postMessage('take-over')
}
