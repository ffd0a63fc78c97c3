// A host of the page whose files a test changes.

import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Files } from '../offline/versions.mjs'

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
    response.end(body ?? 'There is no such file here.')
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
