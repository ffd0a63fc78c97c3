// The programs that turn the Rust core into a page, at the versions that the
// project names: those already there, else those that their makers built where
// they are the bytes on record, else built here from the registry, of which Cargo
// checks every crate.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { HASHES, unpack } from './archive.mjs'
import { output, run, say } from './command.mjs'
import { root, tools } from './folders.mjs'

const programs = [
  {
    name: 'trunk',
    crate: 'trunk',
    version: find('Trunk.toml', /^trunk-version = "=(.+)"/m),
    archive: version => `trunk-rs/trunk/releases/download/v${version}/trunk-${host()}.tar.gz`,
    // The folders around the program in the archive.
    depth: 0,
    time: 'two minutes',
  },
  {
    name: 'wasm-bindgen',
    crate: 'wasm-bindgen-cli',
    version: find('Cargo.lock', /^name = "wasm-bindgen"\nversion = "(.+)"/m),
    archive: version =>
      `wasm-bindgen/wasm-bindgen/releases/download/${version}/wasm-bindgen-${version}-${host()}.tar.gz`,
    depth: 1,
    time: 'a minute',
  },
]

export function ensureRustPrograms() {
  programs.filter(program => !isThere(program)).forEach(install)
}

function install(program) {
  const { name, crate, version, time } = program
  const why = fetchBuilt(program)
  if (why === null && isThere(program)) return
  say(why ?? `The ready-made ${name} does not run here`)
  say(`Building ${name} ${version} (about ${time} on two cores)`)
  // They run for seconds and fetch nothing here: neither optimisation nor what their networking takes earns its time.
  const quick = ['--debug', '--no-default-features']
  const quiet = { CARGO_PROFILE_DEV_DEBUG: '0' }
  const install = flags =>
    run('cargo', ['install', crate, '--version', version, '--root', tools, '--force', ...quick, ...flags], quiet)
  try {
    install(['--locked'])
  } catch {
    say(`Building ${name} with the newest crates that fit, as a registry may no longer have those of its own list`)
    install([])
  }
}

function isThere({ name, version }) {
  return output(name, ['--version'])?.split(' ')[1] === version
}

/** Fetches and unpacks the makers' archive; says why it could not. */
function fetchBuilt({ name, archive, version, depth }) {
  const hash = HASHES[`${name} ${version}`]?.[host()]
  if (hash === undefined) return `No hash is on record of a ready-made ${name} ${version} for ${host()}`
  say(`Fetching ${name} ${version}`)
  return unpack(`https://github.com/${archive(version)}`, hash, depth, join(tools, 'bin'))
}

/** The name under which the makers' archives know this machine. */
function host() {
  const triple = output('rustc', ['-vV']).match(/^host: (.+)/m)[1]
  // Those need no certain version of the system's C library.
  return triple.replace('-linux-gnu', '-linux-musl')
}

function find(file, pattern) {
  return readFileSync(join(root, file), 'utf8').match(pattern)[1]
}
