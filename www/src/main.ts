// Third of early.ts, boot.ts and main.ts, the scripts of the page in their order: it
// starts the engine and draws the page.

import { h, render } from 'preact'
import { App } from './app'
import { begin } from './begin'
import { startEngine } from './engine/engine'
import { bringJson, EngineFileError } from './engine/engine-files'
import { setWords, type PageWords } from './base/words'
import { whenIdle } from './base/idle'
import { clearPage } from './screen/saved-page'
import { reportHeight } from './screen/embed'
import { bringWhole, start } from './screen/opening'
import { fileOf, noteStarted, showStuck } from './base/start-watch'
import { getState, isEmbedded } from './screen/store'
import { typedBefore } from './start/typed-before'
import { wantMore } from './use-more'

begin()
Promise.all([bringJson<PageWords>('page-words').then(setWords), startEngine()])
  .then(() => {
    start()
    const goOn = typedBefore()
    const page = clearPage()
    if (page === null) throw new Error('the page is cut short')
    render(h(App, null), page)
    goOn()
    noteStarted()
    if (isEmbedded(getState())) reportHeight(page)
    // In the order in which the reader may miss it; what keeps the page at hand fetches all of it.
    void new Promise<void>(whenIdle)
      .then(wantMore)
      .then(bringWhole)
      .then(wantMore)
      .then(more => more?.keepAtHand())
  })
  .catch((error: unknown) => {
    // A page that was saved without its files still looks alive: it is not.
    if (document.getElementById('page')?.dataset['drawn'] !== undefined) clearPage()
    // A frame of no origin may run the page's scripts and not fetch its engine.
    if (error instanceof EngineFileError && origin === 'null' && location.protocol !== 'file:') showStuck('frame')
    else if (error instanceof EngineFileError) showStuck('file', fileOf(error.file))
    else showStuck('error')
    // For those who look into it.
    console.error(error)
  })
