// On a whole line that was opened from the input list: where it belongs, and the way back.

import { h, render } from 'preact'
import styles from '../../styles/stage/row-bar.css'
import { wear } from '../base/wear'
import { writeStage } from '../screen/link'
import { seenRow, seeRow } from '../screen/row'
import { useStore } from '../screen/store'
import { RigBar } from './rig-bar'

function RowBar() {
  const place = useStore(({ place }) => place)
  const settings = useStore(state => state.settings)
  if (place.kind !== 'calculator' || place.filling.calculator !== 'whole-line' || place.filling.embed !== null) {
    return null
  }
  const row = seenRow()
  if (row === null) return null
  return (
    <section class="line-bar" aria-label={row.words.of}>
      <span>{row.words.of}</span>
      {row.words.alone !== '' && <span class="hint">{row.words.alone}</span>}
      <a class="chip" href={writeStage('')}>
        {row.words.back}
      </a>
      <a class="chip" href={writeStage('')} onClick={() => seeRow({ ...row, texts: place.filling.current, settings })}>
        {row.words.put}
      </a>
    </section>
  )
}

/** Puts the bars above whatever the page shows. */
export function showRowBar(): void {
  if ('lesson' in document.documentElement.dataset) return
  wear(styles)
  const bar = document.createElement('div')
  document.getElementById('main')?.before(bar)
  render([h(RowBar, null), h(RigBar, null)], bar)
}
