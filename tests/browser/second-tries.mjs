// Tells which tests passed only when they were tried again. Once may be the
// machine's fault; a test that needs it in another run too is not to be trusted,
// and fails that run. What is known of earlier runs stands beside the tools,
// where it outlasts a checkout.

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { tools } from '../../tools/folders.mjs'

const FILE = join(tools, 'second-tries.json')

export default class SecondTries {
  #suite

  constructor({ file = FILE } = {}) {
    this.file = file
  }

  onBegin(_, suite) {
    this.#suite = suite
  }

  onEnd({ status }) {
    const titles = this.#suite
      .allTests()
      .filter(test => test.outcome() === 'flaky')
      .map(titleOf)
    const { report, known, again } = judge(read(this.file), titles)
    console.log(`\n${report}`)
    if (titles.length > 0) write(this.file, known)
    if (again.length === 0) return undefined
    console.log(`They are not to be trusted: mend them, then take them out of ${this.file}.`)
    return { status: status === 'passed' ? 'failed' : status }
  }
}

/** What to say of the tests that needed a second try, what to keep, and which needed one before. */
export function judge(known, titles) {
  const again = titles.filter(title => known.includes(title))
  const list = titles.map(title => `  ${title}${again.includes(title) ? ' (not for the first time)' : ''}`)
  return {
    report: [`${titles.length} needed a second try${titles.length > 0 ? ':' : ''}`, ...list].join('\n'),
    known: [...new Set([...known, ...titles])].sort(),
    again,
  }
}

function titleOf(test) {
  // Without the project, which has no name here, and the root.
  return test.titlePath().filter(Boolean).join(' › ')
}

function read(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    // There was no second try so far.
    return []
  }
}

function write(file, known) {
  mkdirSync(dirname(file), { recursive: true })
  writeFileSync(file, `${JSON.stringify(known, null, 2)}\n`)
}
