// The rooms of the page's sources: each takes from those before it, never the
// other way round, and nothing outside takes from the top floor.

import assert from 'node:assert/strict'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { test } from 'node:test'
import { root } from '../../tools/folders.mjs'

const source = join(root, 'www/src')
const ROOMS = ['base', 'engine', 'screen', 'share', 'plot', 'fields', 'answer', 'look-up', 'start', 'printout', '.']

test('no import of the page goes up', () => {
  const files = readdirSync(source, { recursive: true }).filter(file => /\.tsx?$/.test(file))
  assert.ok(files.length > 50)
  for (const file of files) {
    const floor = ROOMS.indexOf(dirname(file))
    assert.ok(floor >= 0, `${file} is in no room`)
    for (const [, address] of readFileSync(join(source, file), 'utf8').matchAll(/ from '(\.[^']+)'/g)) {
      const place = resolve(source, dirname(file), address)
      const there = ['.ts', '.tsx'].map(ending => place + ending).find(existsSync)
      const room = dirname(relative(source, there ?? place))
      if (room.startsWith('..')) continue
      assert.ok(ROOMS.indexOf(room) <= floor, `${file} takes from ${relative(source, place)}`)
    }
  }
})
