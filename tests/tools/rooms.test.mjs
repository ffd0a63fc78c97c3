// The rooms of the sources: each takes from those before it, never the other way
// round, and nothing of the page takes from its top floor from outside.

import assert from 'node:assert/strict'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { test } from 'node:test'
import { root } from '../../tools/folders.mjs'

const source = join(root, 'www/src')
const ROOMS = [
  'base',
  'engine',
  'screen',
  'share',
  'plot',
  'rig',
  'term',
  'fields',
  'answer',
  'look-up',
  'start',
  'printout',
  'hear',
  'stage/show',
  'stage/gear',
  'stage/power',
  'stage/packing',
  'stage/map',
  'stage/list',
  'stage',
  'fault/listen',
  'fault',
  'lesson',
  'lesson/paper',
  'lesson/class',
  'lesson/package',
  'lesson/edit',
  'lesson/part',
  '.',
]

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

// Links between calculators go both ways, so inside the room of the calculators
// there are circles; between rooms there are none.
const CORE = [
  ...['settings', 'named', 'numeric', 'quantity', 'network', 'catalogue', 'expression', 'part', 'words', 'fault'],
  ...[
    'working',
    'field',
    'report',
    'calculator',
    'ask',
    'look_up',
    'seek',
    'file',
    'stage',
    'listen',
    'hear',
    'diagnosis',
    'lesson',
    'answer',
    'lib',
  ],
]

test('no use of the core goes up', () => {
  const folder = join(root, 'crate/src')
  const files = readdirSync(folder, { recursive: true }).filter(file => file.endsWith('.rs'))
  assert.ok(files.length > 100)
  for (const file of files) {
    const floor = CORE.indexOf(file.split('/')[0].replace(/\.rs$/, ''))
    assert.ok(floor >= 0, `${file} is in no room`)
    const [code] = readFileSync(join(folder, file), 'utf8').split('#[cfg(test)]\nmod tests {')
    for (const [, room] of code.matchAll(/\bcrate::([a-z_]+)/g)) {
      assert.ok(CORE.indexOf(room) <= floor, `${file} takes from ${room}`)
    }
  }
})
