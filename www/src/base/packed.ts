// What the one file has packed inside it.

/** The content of an element of the one file, which is written in Base64. */
export async function unpacked(element: HTMLElement | null): Promise<ArrayBuffer> {
  const bytes = Uint8Array.from(atob(element?.textContent?.trim() ?? ''), letter => letter.charCodeAt(0))
  if (element?.dataset['encoding'] !== 'gzip') return bytes.buffer
  return whole(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')))
}

/** Read piece by piece, since a `Response` may wait for ever for the end of a stream that broke off. */
async function whole(stream: ReadableStream<Uint8Array<ArrayBuffer>>): Promise<ArrayBuffer> {
  const reader = stream.getReader()
  const pieces: Uint8Array<ArrayBuffer>[] = []
  for (let read = await reader.read(); !read.done; read = await reader.read()) pieces.push(read.value)
  return new Blob(pieces).arrayBuffer()
}
