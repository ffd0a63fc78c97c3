// What this version consists of, and the names of the caches it keeps.

/** Written in by the build: a name for just these files, and the hash of each. */
declare const VERSION: string
declare const FILES: Readonly<Record<string, string>>
/** Written in by the build: files that people edit on the host. */
declare const EDITED: readonly string[]

export const scope = self as unknown as ServiceWorkerGlobalScope
/** The folder of the page; other pages of the same host have their own. */
export const folder = scope.registration.scope

/** The folder itself is how the page is asked for. */
export const START = folder
const INDEX = 'index.html'

/** The built files by their whole address, each with its hash as `integrity` has it. */
export const files: ReadonlyMap<string, string> = new Map(
  Object.entries(FILES).map(([file, hash]) => [file === INDEX ? START : new URL(file, folder).href, hash]),
)
export const edited: readonly string[] = EDITED.map(file => new URL(file, folder).href)

const ours = `stageohm ${folder} `
export const own = ours + VERSION
export const editedCache = `${ours}edited`
const noteCache = `${ours}notes`

/** The address under which an answer is kept: without what only the page reads. */
export function addressOf({ url }: { readonly url: string }): string {
  const { origin, pathname } = new URL(url)
  const address = origin + pathname
  return address === new URL(INDEX, folder).href ? START : address
}

/** The folder of the words of a language, and its one file. */
const LANGUAGE = /\/words-([a-z]{2,3})-[\da-f]+\/|\/stageohm-([a-z]{2,3})\.html$/
const IN_USE = 'language'

/** The files to keep: of other languages than English only those in use, such as that of a single tab. */
export async function filesToKeep(): Promise<string[]> {
  const inUse = await languagesInUse()
  return [...files.keys()].filter(file => {
    const [, words, oneFile] = LANGUAGE.exec(file) ?? []
    const language = words ?? oneFile
    return language === undefined || inUse.includes(language)
  })
}

export async function noteLanguage(language: string): Promise<void> {
  const inUse = await languagesInUse()
  if (!inUse.includes(language)) await writeNote(IN_USE, [...inUse, language].join(' '))
}

async function languagesInUse(): Promise<string[]> {
  return ((await readNote(IN_USE)) ?? '').split(' ').filter(Boolean)
}

/** The caches of all versions, this one first. */
export async function versions(): Promise<string[]> {
  const names = (await caches.keys()).filter(
    name => name.startsWith(ours) && name !== editedCache && name !== noteCache,
  )
  return [own, ...names.filter(name => name !== own)]
}

/** A short text that outlives this worker, which the browser stops at will. */
export async function readNote(name: string): Promise<string | null> {
  const kept = await (await caches.open(noteCache)).match(new URL(name, folder))
  return kept === undefined ? null : kept.text()
}

export async function writeNote(name: string, text: string): Promise<void> {
  // A full storage takes none: then the version is tried once more than it should be.
  const cache = await caches.open(noteCache)
  await cache.put(new URL(name, folder), new Response(text)).catch(() => undefined)
}
