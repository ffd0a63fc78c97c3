// The licences of the libraries that end in the page or the one file, as their
// authors want them to be passed on. What has no licence text here, or one that
// nobody has looked at, ends the build.

import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { parse } from 'node-html-parser'
import { root } from './folders.mjs'

/** What may be passed on in a page with no more than its text beside it. */
const ALLOWED = ['MIT', 'ISC', 'Unicode-3.0', 'BSD-3-Clause', 'Zlib']
/** What the standard library has of others, where it is compiled to WebAssembly. */
export const STANDARD = ['cfg-if', 'hashbrown']
/** A text that many have alike, but for whose it is. */
const USUAL = /^permission (is hereby granted|to use)/i
/** Files that say more than a licence of which one has the choice, or say it for a part. */
const MORE = /^(licen[cs]e\.\w+|copyright|notice)(\.\w+)?$/i
/** A line that says whose it is, and one that is but the name of the licence. */
const OWNER = /^(copyright|\(c\)|©)/i
const HEADING = /^((the )?(mit|isc)( license)?( \(mit\))?|copyright and permission notice)$/i

/** All notices as one text; `bundles` are what esbuild says went into the scripts. */
export function notices(bundles) {
  return written(grouped([...crates(), ...standardLibrary(), ...packages(bundles)]))
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
    .flatMap(({ name, version, license, manifest_path }) => library(name, version, license, dirname(manifest_path)))
}

/** The packages of which something is in a script of the page. */
export function packages(bundles) {
  const inputs = bundles.flatMap(({ inputs }) => Object.keys(inputs))
  const names = inputs.flatMap(input => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1] ?? [])
  return [...new Set(names)].sort().flatMap(name => {
    const folder = join(root, 'node_modules', name)
    const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    return library(name, version, license, folder)
  })
}

/** It is in the WebAssembly too; the compiler comes with a file of what is in it. */
function standardLibrary() {
  const ask = (...args) => execFileSync('rustc', args, { cwd: root, encoding: 'utf8' }).trim()
  const [, version] = /^rustc (\S+)/.exec(ask('--version'))
  const file = join(ask('--print', 'sysroot'), 'share/doc/rust/COPYRIGHT-library.html')
  if (!existsSync(file)) throw new Error(`${file} is missing: Rust by rustup has it`)
  const said = readFileSync(file, 'utf8')
  const owners = [...said.matchAll(/<b>Copyright:<\/b> (.*)<\/p>/g)].map(([, owner]) => `Copyright ${owner}`)
  const own = { name: 'Rust standard library', version, owners: [...new Set(owners)], body: null }
  return [own, ...STANDARD.map(name => ofStandard(name, said, file))]
}

/** A library of which that file tells. */
function ofStandard(name, said, file) {
  const [, version, rest] = new RegExp(`<h3>\\S+ ${name}-([\\d.]+)</h3>([^]*)`).exec(said) ?? []
  const [, text] = /^(?:(?!<h3>)[^])*?LICENSE-MIT<\/code><\/summary>\s*<pre>([^]*?)<\/pre>/.exec(rest ?? '') ?? []
  if (text === undefined) throw new Error(`${file} has no licence MIT of ${name}`)
  return { name, version, ...parted(parse(`<p>${text}</p>`).text) }
}

/** A library with its licence, of several the one that asks for the least, and what else it says. */
function library(name, version, license, folder) {
  const wanted = license.split(' AND ').map(part => {
    const offered = part.split(/ OR |\/|[()]/).map(one => one.trim())
    const taken = ALLOWED.find(one => offered.includes(one))
    if (taken === undefined) throw new Error(`${name} is under ${license}, which nobody has looked at`)
    return taken
  })
  const files = readdirSync(folder).filter(file => /^(\w+-)?(licen[cs]e|copying|copyright|notice)/i.test(file))
  const taken = wanted.map(one => {
    const short = one.replace(/-.*/, '').toLowerCase()
    const own =
      files.find(file => file.toLowerCase().includes(short)) ?? files.find(file => /^licen[cs]e(\.\w+)?$/i.test(file))
    if (own === undefined) throw new Error(`${name} has no text of its licence ${one}`)
    return own
  })
  const all = new Set([...taken, ...files.filter(file => MORE.test(file))])
  return [...all].map(file => ({ name, version, ...parted(readFileSync(join(folder, file), 'utf8')) }))
}

/** Whose it is, and the rest, which many have alike; a text of another kind stays whole. */
export function parted(text) {
  const lines = text.split(/\r?\n/).map(line => line.trim())
  const owners = lines.filter(line => OWNER.test(line) && !HEADING.test(line))
  const rest = lines.filter(line => !OWNER.test(line) && !HEADING.test(line.replace(/^#+ /, '')))
  const body = rest.join('\n').trim()
  return USUAL.test(body) ? { owners, body } : { owners: [], body: text.trim() }
}

/** Those with the same words together. */
export function grouped(libraries) {
  const groups = new Map()
  const key = body => body.replace(/\s+/g, ' ').toLowerCase()
  const usual = libraries.find(({ body }) => /^permission is hereby granted, free of charge/i.test(body ?? ''))
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
