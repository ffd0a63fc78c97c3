// Where the engines' files are: beside the page when it is served, inside it
// when it is one saved file. The page's elements tell.

import { unpacked } from '../base/packed'
import { language, noteMissed } from '../base/language'
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
    bringModule(`${name}-wasm`),
    bringWords(`${name}-words`, whole),
    bringGlue(),
  ])
  return { module, words }
}

/** The compiled module of an element. */
export async function bringModule(id: string): Promise<WebAssembly.Module> {
  return bring(id, compileStreaming, bytes => WebAssembly.compile(bytes))
}

/** The glue comes with the page; where it did not, it is asked for again. */
async function bringGlue(): Promise<void> {
  const isThere = () => 'engineGlue' in globalThis
  if (!isThere()) await runPart(GLUE).catch(() => undefined)
  if (!isThere()) throw new EngineFileError(fileOf(GLUE), 'did not come')
}

function whole(words: string): string {
  if (!words.trimEnd().endsWith(END)) throw new Error('cut short')
  return words
}

/** What a file of words in JSON holds. */
export function bringJson<T>(id: string): Promise<T> {
  return bringWords(id, text => JSON.parse(text) as T)
}

/** Words in the language of the reader; where they do not come, those of the page itself stand in. */
async function bringWords<T>(id: string, read: (text: string) => T): Promise<T> {
  const bringFrom = (element: HTMLElement | null, address?: string) =>
    bring(
      id,
      async response => read(await response.text()),
      bytes => read(decoded(bytes)),
      element,
      address,
    )
  const element = document.getElementById(id)
  // In the one file a second language stands beside the first.
  const own = document.getElementById(`${language}.${id}`)
  const standIn = element?.dataset['own']
  if (own === null && standIn === undefined) return bringFrom(element)
  try {
    return await bringFrom(own ?? element)
  } catch {
    const words = await bringFrom(element, standIn)
    noteMissed(id === 'page-words')
    return words
  }
}

/** What is in an element's file, from its response or from what is packed in the page. */
async function bring<T>(
  id: string,
  fromResponse: (response: Response) => Promise<T>,
  fromBytes: (bytes: ArrayBuffer) => Promise<T> | T,
  element = document.getElementById(id),
  address?: string,
): Promise<T> {
  try {
    if (!(element instanceof HTMLLinkElement)) return await fromBytes(await unpacked(element))
    const response = await fetch(address ?? element.href)
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
