// The programs that turn the Rust core into a page, at the versions that the
// project names: those already there, else those that their makers built, else
// built here.

import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
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
    flags: ['--locked'],
    time: 'two minutes',
  },
  {
    name: 'wasm-bindgen',
    crate: 'wasm-bindgen-cli',
    version: find('Cargo.lock', /^name = "wasm-bindgen"\nversion = "(.+)"/m),
    archive: version =>
      `wasm-bindgen/wasm-bindgen/releases/download/${version}/wasm-bindgen-${version}-${host()}.tar.gz`,
    depth: 1,
    flags: [],
    time: 'a minute',
  },
]

export function ensureRustPrograms() {
  programs.filter(program => !isThere(program)).forEach(install)
}

function install(program) {
  const { name, crate, version, flags, time } = program
  say(`Fetching ${name} ${version}`)
  if (fetchBuilt(program) && isThere(program)) return
  say(`Not to be had ready-made here: building ${name} ${version} (about ${time} on two cores)`)
  // They run for seconds and fetch nothing here: neither optimisation nor what their networking takes earns its time.
  const quick = ['--debug', '--no-default-features']
  const quiet = { CARGO_PROFILE_DEV_DEBUG: '0' }
  run('cargo', ['install', crate, '--version', version, '--root', tools, '--force', ...quick, ...flags], quiet)
}

function isThere({ name, version }) {
  return output(name, ['--version'])?.split(' ')[1] === version
}

/** Whether the makers' archive could be fetched and unpacked. */
function fetchBuilt({ archive, version, depth }) {
  const bin = join(tools, 'bin')
  const file = join(tools, 'archive.tar.gz')
  mkdirSync(bin, { recursive: true })
  const done =
    output('curl', ['-fsSL', '--connect-timeout', '5', '-o', file, `https://github.com/${archive(version)}`]) !==
      null && output('tar', ['-xzf', file, '-C', bin, `--strip-components=${depth}`]) !== null
  rmSync(file, { force: true })
  return done
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
