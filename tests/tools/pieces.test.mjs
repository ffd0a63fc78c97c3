// The script of the page and its pieces: no module is in two of them, and none of
// what comes later is in the first.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import { buildPieces, modulesOf } from '../../tools/pieces.mjs'
import { page, script } from '../../tools/script.mjs'
import { styleAsText } from '../../tools/style-as-text.mjs'

test('a module is in one piece alone', async () => {
  const built = await buildPieces(
    { ...script, outdir: 'www/generated', minify: true, write: false, metafile: true, plugins: [styleAsText] },
    page,
  )
  const pieces = built
    .flatMap(({ metafile }) => Object.entries(metafile.outputs))
    .map(([name, output]) => [name, modulesOf([output])])
  assert.deepEqual(pieces.map(([name]) => name.replace(/.*\//, '')).sort(), [
    'fault.js',
    'hear.js',
    'lesson.js',
    'main.js',
    'more.js',
    'search.js',
    'stage.js',
    'teach.js',
  ])
  const where = new Map()
  for (const [name, modules] of pieces) {
    for (const file of modules) {
      // What stands for a borrowed module is all that two may have.
      if (/^(lent|borrowed|shelf):/.test(file)) continue
      assert.equal(where.get(file), undefined, `${file} is in ${where.get(file)} and in ${name}`)
      where.set(file, name)
    }
  }
  const place = end => [...where].find(([file]) => file.endsWith(end))?.[1]
  assert.equal(place('www/src/screen/store.ts'), 'www/generated/main.js')
  assert.equal(place('www/src/answer/answer.tsx'), 'www/generated/main.js')
  assert.equal(place('www/src/engine/hearing.ts'), 'www/generated/more.js')
  assert.equal(place('www/src/hear/player.ts'), 'www/generated/hear.js')
  assert.equal(place('www/src/lesson/player.tsx'), 'www/generated/lesson.js')
  assert.equal(place('www/src/lesson/edit/editor.tsx'), 'www/generated/teach.js')
  assert.equal(place('www/src/plot/plots.tsx'), 'www/generated/more.js')
  assert.equal(place('www/src/printout/printout.tsx'), 'www/generated/more.js')
})
