// Whether a library of the lock files has a known fault. One open database, OSV,
// knows crates and npm packages alike: it gathers the advisories of RustSec and
// those of GitHub. `npm audit` reads GitHub's too, so it would be a second service
// to reach and no further advisory.

import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './folders.mjs'

const DATABASE = process.env.STAGEOHM_ADVISORIES ?? 'https://api.osv.dev'
/** How many libraries one request may ask about, by https://osv.dev/docs/osv_service_v1.swagger.json. */
const MOST = 1000
/** How long all of it may take, in milliseconds. */
const PATIENCE = 10_000

/** Advisories that do no harm here: `{ id, name, reason }`. One that is no longer needed fails too. */
const EXCUSED = []

/** Prints every advisory, and throws where one is not excused. */
export async function advisories() {
  const all = libraries()
  const { found, excused, needless, unreached } = await check(all, EXCUSED, DATABASE)
  for (const { id, name, version, reason } of excused) console.log(`Excused: ${id} of ${name} ${version}: ${reason}`)
  for (const { id, name, version } of found) console.log(`${id}: ${name} ${version}, see https://osv.dev/${id}`)
  for (const { id, name } of needless) console.log(`No longer needed: the excuse of ${id} of ${name}`)
  if (unreached) console.log(`Not checked: ${DATABASE} could not be reached (${unreached})`)
  if (found.length > 0) throw new Error(`Libraries with a known fault: ${found.length} advisories`)
  if (needless.length > 0) throw new Error('Excuses of advisories that no longer apply')
  if (!unreached) console.log(`${all.length} libraries, none with a known fault that is not excused`)
}

/**
 * What the database knows of these libraries: advisories that are `found`, or
 * `excused` with the reason, excuses that are `needless`, and why it was
 * `unreached`, in which case the others hold only what it had told before.
 */
export async function check(libraries, excuses, database) {
  const told = []
  let unreached = null
  try {
    for await (const advisory of ask(libraries, database)) told.push(advisory)
  } catch (error) {
    if (!(error instanceof Unreached)) throw error
    unreached = error.message
  }
  const fits = (excuse, advisory) => excuse.id === advisory.id && excuse.name === advisory.name
  const judged = told.map(one => ({ ...one, reason: excuses.find(excuse => fits(excuse, one))?.reason }))
  return {
    found: judged.filter(({ reason }) => reason === undefined),
    excused: judged.filter(({ reason }) => reason !== undefined),
    needless: unreached ? [] : excuses.filter(excuse => !told.some(one => fits(excuse, one))),
    unreached,
  }
}

/** Every library at its locked version: those of all platforms, and those that only build or test. */
export function libraries() {
  const all = [...crates(), ...packages()]
  return [...new Map(all.map(one => [Object.values(one).join(' '), one])).values()]
}

function crates() {
  const args = ['metadata', '--locked', '--all-features', '--format-version', '1']
  const text = execFileSync('cargo', args, { cwd: root, maxBuffer: 100_000_000 })
  // What has no source is our own.
  const others = JSON.parse(text).packages.filter(({ source }) => source !== null)
  return others.map(({ name, version }) => ({ ecosystem: 'crates.io', name, version }))
}

function packages() {
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'))
  const others = Object.entries(packages).filter(([place]) => place !== '')
  return others.map(([place, { name, version }]) => ({
    ecosystem: 'npm',
    // It has a name of its own where it is installed under another.
    name: name ?? place.replace(/^.*node_modules\//, ''),
    version,
  }))
}

/** The database did not answer, or not so that it can be read. */
class Unreached extends Error {}

/** Every advisory, page by page: https://google.github.io/osv.dev/post-v1-querybatch/ */
async function* ask(libraries, database) {
  const signal = AbortSignal.timeout(PATIENCE)
  const waiting = libraries.map(({ ecosystem, name, version }) => ({ package: { ecosystem, name }, version }))
  while (waiting.length > 0) {
    const queries = waiting.splice(0, MOST)
    const results = await post(`${database}/v1/querybatch`, { queries }, signal)
    if (!readable(results, queries.length)) throw new Unreached('its answer cannot be read')
    for (const [i, { vulns = [], next_page_token }] of results.entries()) {
      const { package: library, version } = queries[i]
      for (const { id } of vulns) yield { id, name: library.name, version }
      if (next_page_token) waiting.push({ ...queries[i], page_token: next_page_token })
    }
  }
}

/** The results of a request, undefined where the answer is something else. */
async function post(address, question, signal) {
  let status, text
  try {
    const headers = { 'Content-Type': 'application/json' }
    const answer = await fetch(address, { method: 'POST', headers, body: JSON.stringify(question), signal })
    status = answer.status
    text = await answer.text()
  } catch (error) {
    throw new Unreached(error.cause?.message ?? error.message)
  }
  if (status >= 500) throw new Unreached(`it answered ${status}`)
  if (status >= 400) throw new Error(`${address} does not take the question: ${status} ${text}`)
  try {
    return JSON.parse(text)?.results
  } catch {
    return undefined
  }
}

/** Whether there is one result for each query, and in it only advisories with an id. */
function readable(results, count) {
  const advisory = one => typeof one?.id === 'string'
  const list = all => Array.isArray(all) && all.every(advisory)
  const result = one => one instanceof Object && (one.vulns === undefined || list(one.vulns))
  return Array.isArray(results) && results.length === count && results.every(result)
}
