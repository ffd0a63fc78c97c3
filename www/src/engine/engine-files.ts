// Where the engine's files are: beside the page when it is served, inside it
// when it is one saved file. The page's elements tell.

import { unpacked } from '../base/packed'

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
  return WebAssembly.compile(await unpacked(element))
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
