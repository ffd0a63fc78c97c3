// An archive that a program's makers built: only the bytes that are recorded here
// are unpacked.

import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { output } from './command.mjs'

/**
 * SHA-256 of the archives, by program and version, and by machine. A new version
 * has none until somebody writes it down here, and is built instead.
 */
export const HASHES = {
  // From manifests/trunk.json of github.com/taiki-e/install-action.
  'trunk 0.21.14': {
    'x86_64-unknown-linux-musl': 'a67f4054b249fe9acc5fabc25de1aebf19783aca3ad6ff64bf34d7da44d0ea20',
    'aarch64-unknown-linux-musl': 'e8e2a2bb423ce6702ab9f4f02f8c9ae99d790f0301f7634e986b2dd8706019cc',
    'x86_64-apple-darwin': 'f1ba0e3bbe24e0ae219c6d22c33e24e2825c1608dd27c2556e323495110f1a95',
    'aarch64-apple-darwin': '764e299dd50d89442a4e96a236349f57961984b701e74d3dbdb39cd1c9f5101e',
  },
}

/** Fetches and unpacks an archive into a folder, less the folders around its files; says why it could not. */
export function unpack(address, hash, depth, folder) {
  const file = join(folder, 'archive.tar.gz')
  mkdirSync(folder, { recursive: true })
  try {
    if (output('curl', ['-fsSL', '--connect-timeout', '5', '-o', file, address]) === null) {
      return `${address} cannot be fetched here`
    }
    const found = createHash('sha256').update(readFileSync(file)).digest('hex')
    if (found !== hash) {
      return `WARNING: ${address} is not the archive that is known: its SHA-256 is ${found}, not ${hash}. It was thrown away`
    }
    const unpacked = output('tar', ['-xzf', file, '-C', folder, `--strip-components=${depth}`]) !== null
    return unpacked ? null : `${address} cannot be unpacked`
  } finally {
    rmSync(file, { force: true })
  }
}
