// A slider and its field are one: moving it writes the number.

import { answer, descriptions } from './engine'
import { expect, expectAnswer, input, open, slider, test } from './page'

for (const { id, title, fields } of descriptions()) {
  const { fields: echoes } = answer(id)
  const moved = fields.find(
    field =>
      !field.detail && echoes[field.id]?.active && field.number && field.number.usual_to > field.number.usual_from,
  )
  if (moved === undefined) continue
  test(`${title}: ${moved.name}`, async ({ page }) => {
    await open(page, `#1/${id}`)
    for (const part of [0.31, 0.77]) {
      const before = await input(page, moved.id).inputValue()
      const box = await slider(page, moved.id).boundingBox()
      if (box === null) throw new Error('the slider is not to be seen')
      await slider(page, moved.id).click({ position: { x: part * box.width, y: box.height / 2 } })
      await expect(input(page, moved.id)).not.toHaveValue(before)
      const text = await input(page, moved.id).inputValue()
      await expectAnswer(page, answer(id, { [moved.id]: text }))
    }
    await expect(page).toHaveURL(new RegExp(`${moved.id}=`))
  })
}
