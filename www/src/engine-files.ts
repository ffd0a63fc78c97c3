// Where the engine's files are: beside the page when it is served, inside it
// when it is one saved file. The page's elements tell.

/** The compiled engine. */
export async function compileEngine(): Promise<WebAssembly.Module> {
  const element = document.getElementById('engine-wasm')
  if (element instanceof HTMLLinkElement) {
    const response = await fetch(element.href)
    if (!response.ok) throw new Error(`${element.href}: ${response.status}`)
    // Compiled while it arrives, and kept compiled by browsers that keep it; only
    // a host that names it by its right type is trusted with that.
    return response.headers.get('content-type') === 'application/wasm'
      ? WebAssembly.compileStreaming(response)
      : WebAssembly.compile(await response.arrayBuffer())
  }
  const bytes = Uint8Array.from(atob(element?.textContent?.trim() ?? ''), letter => letter.charCodeAt(0))
  if (element?.dataset['encoding'] !== 'gzip') return WebAssembly.compile(bytes)
  const plain = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))
  return WebAssembly.compile(await new Response(plain).arrayBuffer())
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
