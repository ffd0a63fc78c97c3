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
    // To the far side, and back.
    for (let move = 0; move < 2; move++) {
      const before = await input(page, moved.id).inputValue()
      const box = await slider(page, moved.id).boundingBox()
      if (box === null) throw new Error('the slider is not to be seen')
      const present = await slider(page, moved.id).evaluate((element: HTMLInputElement) => element.valueAsNumber)
      const x = (present < 200 ? 0.85 : 0.15) * box.width
      await slider(page, moved.id).click({ position: { x, y: box.height / 2 } })
      await expect(input(page, moved.id)).not.toHaveValue(before)
      const text = await input(page, moved.id).inputValue()
      await expectAnswer(page, answer(id, { [moved.id]: text }))
    }
    await expect(page).toHaveURL(new RegExp(`${moved.id}=`))
  })
}
