/** Gives a file to the reader, who keeps it where files are kept. */
export function download(content: BlobPart, type: string, name: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }))
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  // Some browsers read it only after a while.
  setTimeout(() => URL.revokeObjectURL(url), 60_000)
}

/** A name that sorts by date in a folder: `stageohm-pickup-2026-05-31.html`. */
export function fileName(parts: readonly string[], ending: string): string {
  return `${['stageohm', ...parts, today()].join('-')}.${ending}`
}

/** The date where the reader is, as ISO 8601 writes it. */
export function today(): string {
  const now = new Date()
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(part => `${part}`.padStart(2, '0')).join('-')
}
