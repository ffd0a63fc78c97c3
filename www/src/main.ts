// Third of early.ts, boot.ts and main.ts, the scripts of the page in their order: it
// starts the engine and draws the page.

import { h, render } from 'preact'
import { App } from './app'
import { beginAwake } from './awake'
import { begin } from './begin'
import { startEngine } from './engine/engine'
import { bringJson, EngineFileError } from './engine/engine-files'
import { afterFrame } from './base/frame'
import { setWords, type PageWords } from './base/words'
import { keepAtHand } from './base/offline'
import { listenForPrinter } from './printout/paper'
import { clearPage } from './screen/saved-page'
import { reportHeight } from './screen/embed'
import { bringWhole, start } from './screen/opening'
import { fileOf, noteStarted, showStuck } from './base/start-watch'
import { getState, isEmbedded } from './screen/store'

begin()
Promise.all([bringJson<PageWords>('page-words').then(setWords), startEngine()])
  .then(() => {
    start()
    beginAwake()
    const page = clearPage()
    if (page === null) throw new Error('the page is cut short')
    render(h(App, null), page)
    noteStarted()
    listenForPrinter()
    if (isEmbedded(getState())) reportHeight(page)
    // What keeps the page at hand fetches all of it: after what the reader waits for.
    void afterFrame().then(bringWhole).then(keepAtHand)
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
