export function placeServiceWorker(folder: string): void
