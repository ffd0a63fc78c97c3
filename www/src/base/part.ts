// A script that comes once it is wanted. As for the engine, the page's elements
// tell where it is: beside the page, or packed in the one file, whose policy
// knows it.

import { unpacked } from './packed'

/** The scripts that are on their way: WebKit forgets one that stands nowhere before it tells that it has come. */
const underWay = new Set<HTMLScriptElement>()

/** Runs the script of this element; one that does not come may be asked for again. */
export async function runPart(id: string): Promise<void> {
  const source = document.getElementById(id)
  const script = document.createElement('script')
  if (source instanceof HTMLLinkElement) script.src = source.href
  else if (source instanceof HTMLScriptElement && source.src !== '') script.src = source.src
  else script.textContent = new TextDecoder().decode(await unpacked(source))
  await new Promise<void>((done, failed) => {
    script.onerror = () => failed(new Error(`${id} did not come`))
    script.onload = () => done()
    underWay.add(script)
    document.head.append(script)
    // A copy of the page that somebody keeps is to be as it was.
    script.remove()
    // What stands in the script itself has run by now.
    if (script.src === '') done()
  }).finally(() => underWay.delete(script))
}
