// A script that comes once it is wanted. As for the engine, the page's elements
// tell where it is: beside the page, or as text in the one file, whose policy
// knows it.

/** Runs the script of this element; one that does not come may be asked for again. */
export function runPart(id: string): Promise<void> {
  const source = document.getElementById(id)
  const script = document.createElement('script')
  return new Promise((done, failed) => {
    script.onerror = () => failed(new Error(`${id} did not come`))
    script.onload = () => done()
    if (source instanceof HTMLLinkElement) script.src = source.href
    else script.textContent = source?.textContent ?? ''
    document.head.append(script)
    // A copy of the page that somebody keeps is to be as it was.
    script.remove()
    if (!(source instanceof HTMLLinkElement)) done()
  })
}
