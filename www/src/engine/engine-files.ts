// Where the engine's files are: beside the page when it is served, inside it
// when it is one saved file. The page's elements tell.

/** The engine is missing, or not whole. */
export class EngineFileError extends Error {
  readonly file: string

  constructor(file: string, cause: unknown) {
    super(`${file}: ${String(cause)}`)
    this.file = file
  }
}

/** The compiled engine. */
export async function compileEngine(): Promise<WebAssembly.Module> {
  const element = document.getElementById('engine-wasm')
  try {
    return await compileFrom(element)
  } catch (error) {
    throw new EngineFileError(element instanceof HTMLLinkElement ? element.href : location.href, error)
  }
}

async function compileFrom(element: HTMLElement | null): Promise<WebAssembly.Module> {
  if (element instanceof HTMLLinkElement) {
    const response = await fetch(element.href)
    if (!response.ok) throw new Error(`${response.status}`)
    // Compiled while it arrives, and kept compiled by browsers that keep it; only
    // a host that names it by its right type is trusted with that.
    return response.headers.get('content-type') === 'application/wasm'
      ? WebAssembly.compileStreaming(response)
      : WebAssembly.compile(await response.arrayBuffer())
  }
  const bytes = Uint8Array.from(atob(element?.textContent?.trim() ?? ''), letter => letter.charCodeAt(0))
  if (element?.dataset['encoding'] !== 'gzip') return WebAssembly.compile(bytes)
  return WebAssembly.compile(await whole(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))))
}

/** Read piece by piece, since a `Response` may wait for ever for the end of a stream that broke off. */
async function whole(stream: ReadableStream<Uint8Array<ArrayBuffer>>): Promise<ArrayBuffer> {
  const reader = stream.getReader()
  const pieces: Uint8Array<ArrayBuffer>[] = []
  for (let read = await reader.read(); !read.done; read = await reader.read()) pieces.push(read.value)
  return new Blob(pieces).arrayBuffer()
}

/** A worker that has been given the engine. */
export function startWorker(module: WebAssembly.Module): Worker {
  const element = document.getElementById('worker-source')
  if (element instanceof HTMLLinkElement) {
    const glue = document.getElementById('engine-glue')
    const worker = new Worker(element.href)
    worker.postMessage({ module, glue: glue instanceof HTMLScriptElement ? glue.src : null })
    return worker
  }
  const url = URL.createObjectURL(new Blob([element?.textContent ?? ''], { type: 'text/javascript' }))
  const worker = new Worker(url)
  worker.postMessage({ module, glue: null })
  return worker
}
