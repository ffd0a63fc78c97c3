// Running other programs, those of the project's own tools first.

import { spawnSync } from 'node:child_process'
import { delimiter, join } from 'node:path'
import { packages, root, tools } from './folders.mjs'

const PATH = [join(tools, 'bin'), join(packages, '.bin'), process.env.PATH].join(delimiter)

/** Runs a program, showing what it prints; throws where it fails. */
export function run(program, args, env = {}) {
  const { status, error } = start(program, args, { stdio: 'inherit' }, env)
  if (error || status !== 0) {
    throw new Error(`${program} ${args.join(' ')}: ${error?.message ?? `ended with ${status}`}`)
  }
}

/** What a program prints, or null where it is missing or fails. */
export function output(program, args) {
  const { status, stdout } = start(program, args, { encoding: 'utf8', maxBuffer: 1e9 })
  return status === 0 ? stdout.trim() : null
}

/** Says what is being done, and about how long it takes where that is long. */
export function say(what) {
  console.log(`\n── ${what}`)
}

/** What is set for other programs. */
export function environment() {
  return { ...process.env, PATH }
}

function start(program, args, options, env = {}) {
  return spawnSync(program, args, { cwd: root, ...options, env: { ...environment(), ...env } })
}
