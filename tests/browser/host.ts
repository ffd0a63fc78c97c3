// A host of the page whose files a test changes: two versions of it, and what
// uploads and networks make of them.

import { cpSync, mkdirSync, readFileSync, readdirSync, renameSync, statSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { placeServiceWorker } from '../../tools/offline.mjs'

const dist = fileURLToPath(new URL('../../dist/', import.meta.url))

/** The files of a version by their names. */
export type Files = ReadonlyMap<string, Buffer>

export interface Host {
  readonly address: string
  /** What is given for a name; a file that is not there is answered with 404. */
  files: Files
  /** A whole answer in the place of every file, as a network that wants a log-in gives it. */
  portal: string | null
  /** Names that were asked for, in order. */
  readonly asked: string[]
  stop(): Promise<void>
}

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript',
  css: 'text/css',
  wasm: 'application/wasm',
  png: 'image/png',
  svg: 'image/svg+xml',
  webmanifest: 'application/manifest+json',
}

export async function startHost(files: Files): Promise<Host> {
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://host').pathname.slice(1)
    const name = path === '' ? 'index.html' : path
    host.asked.push(name)
    const body = host.portal ?? host.files.get(name)
    response.setHeader('Cache-Control', 'no-cache')
    response.statusCode = body === undefined ? 404 : 200
    const type = host.portal === null ? TYPES[name.replace(/.*\./, '')] : TYPES['html']
    if (body !== undefined && type !== undefined) response.setHeader('Content-Type', type)
    response.end(body)
  })
  await new Promise<void>(done => server.listen(0, '127.0.0.1', done))
  const host: Host = {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    files,
    portal: null,
    asked: [],
    stop: () => {
      server.closeAllConnections()
      return new Promise<void>(done => server.close(() => done()))
    },
  }
  return host
}

/** The page as it was built. */
export function builtFiles(): Files {
  return filesIn(dist)
}

/**
 * Another version of it, every file of which is another one, and its main script
 * perhaps quite another; made in an empty folder.
 */
export function renewedFiles(folder: string, mark = 'renewed', { main }: { main?: string | undefined } = {}): Files {
  mkdirSync(folder, { recursive: true })
  cpSync(dist, folder, { recursive: true })
  const renamed = new Map<string, string>()
  for (const [name, content] of filesIn(folder)) {
    const path = join(folder, name)
    const own = main !== undefined && name.startsWith('main-') ? Buffer.from(main) : content
    writeFileSync(path, Buffer.concat([own, addition(name, mark)]))
    const other = name.replace(/-[0-9a-f]{16}(?=[._])/, hash => `-${[...hash.slice(1)].reverse().join('')}`)
    if (other === name) continue
    renameSync(path, join(folder, other))
    renamed.set(name, other)
  }
  const index = join(folder, 'index.html')
  const page = readFileSync(index, 'utf8').replace(/<html lang="?en"?/, `$& data-${mark}`)
  writeFileSync(
    index,
    [...renamed].reduce((text, [from, to]) => text.replaceAll(from, to), page),
  )
  placeServiceWorker(folder)
  return filesIn(folder)
}

/** What changes nothing but the bytes of a file. */
function addition(name: string, mark: string): Buffer {
  if (name.endsWith('.wasm')) return Buffer.from([0, 1 + mark.length, mark.length, ...Buffer.from(mark)])
  if (/\.(js|css)$/.test(name)) return Buffer.from(`\n/* ${mark} */`)
  if (/\.(html|svg)$/.test(name)) return Buffer.from(`\n<!-- ${mark} -->`)
  return Buffer.from('\n')
}

function filesIn(folder: string): Files {
  const list = (place: string): string[] =>
    readdirSync(place)
      .sort()
      .map(name => join(place, name))
      .flatMap(path => (statSync(path).isDirectory() ? list(path) : [path]))
  return new Map(list(folder).map(path => [relative(folder, path).split(sep).join('/'), readFileSync(path)]))
}
