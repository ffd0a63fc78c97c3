// Where the engines' files are: beside the page when it is served, inside it
// when it is one saved file. The page's elements tell.

import { unpacked } from '../base/packed'
import { runPart } from '../base/part'

/** A file of an engine is missing, or not whole. */
export class EngineFileError extends Error {
  readonly file: string

  constructor(file: string, cause: unknown) {
    super(`${file}: ${String(cause)}`)
    this.file = file
  }
}

/** What an engine is made of. */
export interface Made {
  readonly module: WebAssembly.Module
  readonly words: string
}

const GLUE = 'engine-glue'

/** How a file of words ends; one that was cut short does not. */
const END = '# end'

/** The engine of a name, compiled, and its words. */
export async function bringEngine(name: string): Promise<Made> {
  const [module, words] = await Promise.all([
    bring(`${name}-wasm`, compileStreaming, bytes => WebAssembly.compile(bytes)),
    bring(`${name}-words`, response => response.text(), decoded).then(words => {
      if (!words.trimEnd().endsWith(END)) throw new EngineFileError(fileOf(`${name}-words`), 'cut short')
      return words
    }),
    bringGlue(),
  ])
  return { module, words }
}

/** The glue comes with the page; where it did not, it is asked for again. */
async function bringGlue(): Promise<void> {
  const isThere = () => 'engineGlue' in globalThis
  if (!isThere()) await runPart(GLUE).catch(() => undefined)
  if (!isThere()) throw new EngineFileError(fileOf(GLUE), 'did not come')
}

/** What a file of JSON holds. */
export async function bringJson<T>(id: string): Promise<T> {
  return bring(
    id,
    response => response.json() as Promise<T>,
    async bytes => JSON.parse(decoded(bytes)) as T,
  )
}

/** What is in an element's file, from its response or from what is packed in the page. */
async function bring<T>(
  id: string,
  fromResponse: (response: Response) => Promise<T>,
  fromBytes: (bytes: ArrayBuffer) => Promise<T> | T,
): Promise<T> {
  const element = document.getElementById(id)
  try {
    if (!(element instanceof HTMLLinkElement)) return await fromBytes(await unpacked(element))
    const response = await fetch(element.href)
    if (!response.ok) throw new Error(`${response.status}`)
    return await fromResponse(response)
  } catch (error) {
    throw new EngineFileError(fileOf(id), error)
  }
}

function fileOf(id: string): string {
  const element = document.getElementById(id)
  if (element instanceof HTMLScriptElement && element.src !== '') return element.src
  return element instanceof HTMLLinkElement ? element.href : location.href
}

function decoded(bytes: ArrayBuffer): string {
  return new TextDecoder().decode(bytes)
}

async function compileStreaming(response: Response): Promise<WebAssembly.Module> {
  // Compiled while it arrives, and kept compiled by browsers that keep it; only
  // a host that names it by its right type is trusted with that.
  return response.headers.get('content-type') === 'application/wasm'
    ? WebAssembly.compileStreaming(response)
    : WebAssembly.compile(await response.arrayBuffer())
}

/** A worker that has been given an engine. */
export function startWorker(engine: Made): Worker {
  const element = document.getElementById('worker-source')
  if (element instanceof HTMLLinkElement) {
    const glue = document.getElementById(GLUE)
    const worker = new Worker(element.href)
    worker.postMessage({ ...engine, glue: glue instanceof HTMLScriptElement ? glue.src : null })
    return worker
  }
  const url = URL.createObjectURL(new Blob([element?.textContent ?? ''], { type: 'text/javascript' }))
  const worker = new Worker(url)
  worker.postMessage({ ...engine, glue: null })
  return worker
}
