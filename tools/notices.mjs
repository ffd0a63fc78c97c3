// The licences of the libraries that end in the page or the one file, as their
// authors want them to be passed on. What has no licence text here, or one that
// nobody has looked at, ends the build.

import { execFileSync } from 'node:child_process'
import { readFileSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { root } from './folders.mjs'

/** What may be passed on in a page with no more than its text beside it. */
const ALLOWED = ['MIT', 'ISC', 'Unicode-3.0', 'BSD-3-Clause', 'Zlib']
/** A line that says whose it is, and one that is but the name of the licence. */
const OWNER = /^(copyright|\(c\)|©)/i
const HEADING = /^(the )?(mit|isc)( license)?( \(mit\))?$/i

/** All notices as one text; `bundles` are what esbuild says went into the scripts. */
export function notices(bundles) {
  return written(grouped([...crates(), standardLibrary(), ...packages(bundles)]))
}

/** The crates whose code is in the WebAssembly. */
export function crates() {
  const args = ['metadata', '--locked', '--offline', '--format-version', '1']
  const text = execFileSync('cargo', [...args, '--filter-platform', 'wasm32-unknown-unknown'], {
    cwd: root,
    maxBuffer: 100_000_000,
  })
  const { packages, resolve } = JSON.parse(text)
  const known = new Map(packages.map(one => [one.id, one]))
  const nodes = new Map(resolve.nodes.map(one => [one.id, one]))
  const page = packages.find(({ name }) => name === 'stageohm-web')
  const found = new Set()
  const follow = id => {
    // A macro runs in the compiler and is not in what it makes.
    if (found.has(id) || known.get(id).targets.some(({ kind }) => kind.includes('proc-macro'))) return
    found.add(id)
    for (const { pkg, dep_kinds } of nodes.get(id).deps) if (dep_kinds.some(({ kind }) => kind === null)) follow(pkg)
  }
  follow(page.id)
  return [...found]
    .map(id => known.get(id))
    .filter(({ source }) => source !== null)
    .map(({ name, version, license, manifest_path }) => library(name, version, license, dirname(manifest_path)))
}

/** The packages of which something is in a script of the page. */
export function packages(bundles) {
  const inputs = bundles.flatMap(({ inputs }) => Object.keys(inputs))
  const names = inputs.flatMap(input => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1] ?? [])
  return [...new Set(names)].sort().map(name => {
    const folder = join(root, 'node_modules', name)
    const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    return library(name, version, license, folder)
  })
}

/** It is in the WebAssembly too, and comes with the compiler. */
function standardLibrary() {
  const [, version] = /^rustc (\S+)/.exec(execFileSync('rustc', ['--version'], { cwd: root, encoding: 'utf8' }))
  // Not every installation has its licence as a file; the words are those of the others.
  return { name: 'Rust standard library', version, owners: ['Copyright (c) The Rust Project contributors'], body: null }
}

/** A library with its licence: of several, the one that asks for the least. */
function library(name, version, license, folder) {
  const wanted = license.split(' AND ').map(part => {
    const offered = part.split(/ OR |\/|[()]/).map(one => one.trim())
    const taken = ALLOWED.find(one => offered.includes(one))
    if (taken === undefined) throw new Error(`${name} is under ${license}, which nobody has looked at`)
    return taken
  })
  const files = readdirSync(folder).filter(file => /^(licen[cs]e|copying)/i.test(file))
  const texts = wanted.map(one => {
    const short = one.replace(/-.*/, '').toLowerCase()
    const own =
      files.find(file => file.toLowerCase().includes(short)) ?? files.find(file => /^licen[cs]e(\.\w+)?$/i.test(file))
    if (own === undefined) throw new Error(`${name} has no text of its licence ${one}`)
    return readFileSync(join(folder, own), 'utf8')
  })
  return { name, version, ...parted(texts.join('\n\n')) }
}

/** Whose it is, and the rest, which many have alike. */
function parted(text) {
  const lines = text.split(/\r?\n/).map(line => line.trim())
  const owners = lines.filter(line => OWNER.test(line))
  const rest = lines.filter(line => !OWNER.test(line) && !HEADING.test(line.replace(/^#+ /, '')))
  return { owners, body: rest.join('\n').trim() }
}

/** Those with the same words together. */
export function grouped(libraries) {
  const groups = new Map()
  const key = body => body.replace(/\s+/g, ' ').toLowerCase()
  const usual = libraries.find(
    ({ body }) => body !== null && /^permission is hereby granted, free of charge/i.test(body),
  )
  for (const { name, version, owners, body } of libraries) {
    const words = body ?? usual.body
    const group = groups.get(key(words)) ?? { body: words, of: [] }
    group.of.push({ name, version, owners })
    groups.set(key(words), group)
  }
  return [...groups.values()]
}

function written(groups) {
  const one = ({ name, version, owners }) => [`${name} ${version}`, ...owners.map(owner => `  ${owner}`)].join('\n')
  return groups.map(({ of, body }) => `${of.map(one).join('\n')}\n\n${body}\n`).join('\n\n')
}
