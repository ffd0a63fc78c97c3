// The built page on this machine, as a plain web server gives it.

import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { join } from 'node:path'
import { parse } from 'node-html-parser'
import sirv from 'sirv'
import { dist } from './folders.mjs'

/**
 * The strictest policy that the page lives with: its own, and frames for the
 * example of a lesson. A frame that has an origin of its own may ask for the
 * engine too.
 */
function headers() {
  const page = parse(readFileSync(join(dist, 'index.html'), 'utf8'))
  return {
    'Access-Control-Allow-Origin': '*',
    'Cache-Control': 'no-cache',
    'Content-Security-Policy': page
      .querySelector('#policy')
      .getAttribute('content')
      .replace("frame-src 'none'", "frame-src 'self'"),
  }
}

/** Serves the page under a path that begins and ends with a slash. */
export function host(port, path) {
  const files = sirv(dist, {
    setHeaders: (response, path) => {
      Object.entries(headers()).forEach(([name, value]) => response.setHeader(name, value))
      // It brings a policy of its own, with the hashes of its scripts.
      if (/stageohm(-[a-z]+)?\.html$/.test(path)) response.removeHeader('Content-Security-Policy')
    },
  })
  const server = createServer((request, response) => {
    const missing = () => {
      response.statusCode = 404
      response.end()
    }
    if (!request.url.startsWith(path)) return missing()
    request.url = request.url.slice(path.length - 1)
    files(request, response, missing)
  })
  return new Promise((resolve, reject) => {
    server.on('error', reject)
    server.listen(port, '127.0.0.1', () => resolve(`http://127.0.0.1:${server.address().port}${path}`))
  })
}
