// The served page installs what keeps it at hand without a network, and learns
// from it that a new version waits. A page in a frame of its own origin or from
// a file can have none, and does not need it.

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

/** Calls `listener` once the page opens without a network. */
export function whenKept(listener: () => void): void {
  if (mayBeKept()) void navigator.serviceWorker?.ready.then(listener)
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
  active?.postMessage({ started: ownFiles() })
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
