import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import SecondTries, { judge } from '../browser/second-tries.mjs'

const folder = mkdtempSync(join(tmpdir(), 'stageohm-'))
after(() => rmSync(folder, { recursive: true }))

test('each is told and counted', () => {
  assert.deepEqual(judge([], []), { report: '0 needed a second try', known: [], again: [] })
  const { report, known, again } = judge(['a'], ['c', 'b'])
  assert.equal(report, '2 needed a second try:\n  c\n  b')
  assert.deepEqual(known, ['a', 'b', 'c'])
  assert.deepEqual(again, [])
})

/** A run in which these tests passed at their second try. */
function run(titles, status = 'passed') {
  const tests = titles.map(title => ({ outcome: () => 'flaky', titlePath: () => ['', '', title] }))
  const others = [{ outcome: () => 'expected', titlePath: () => ['', '', 'steady'] }]
  const reporter = new SecondTries({ file: join(folder, 'tools', 'second-tries.json') })
  reporter.onBegin({}, { allTests: () => [...tests, ...others] })
  return reporter.onEnd({ status })?.status ?? status
}

test('a second time fails the run, and only that of the same test', () => {
  assert.equal(run(['one']), 'passed')
  assert.equal(run(['another']), 'passed')
  assert.equal(run([]), 'passed')
  assert.equal(run(['one']), 'failed')
  assert.equal(run(['a third'], 'interrupted'), 'interrupted')
})
