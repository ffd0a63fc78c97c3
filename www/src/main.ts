import { h, render } from 'preact'
import { App } from './app'
import { beginAwake } from './awake'
import { begin } from './begin'
import { startEngine } from './engine'
import { EngineFileError } from './engine-files'
import { keepAtHand } from './offline'
import { listenForPrinter } from './paper'
import { clearPage } from './saved-page'
import { isLesson, reportHeight } from './lesson'
import { start } from './screen'
import { fileOf, noteStarted, showStuck } from './start'
import { getState } from './store'

begin()
startEngine()
  .then(() => {
    start()
    keepAtHand()
    beginAwake()
    const page = clearPage()
    if (page === null) throw new Error('the page is cut short')
    render(h(App, null), page)
    noteStarted()
    listenForPrinter()
    if (isLesson(getState())) reportHeight(page)
  })
  .catch((error: unknown) => {
    // A page that was saved without its files still looks alive: it is not.
    if (document.getElementById('page')?.dataset['drawn'] !== undefined) clearPage()
    // A frame of no origin may run the page's scripts and not fetch its engine.
    if (error instanceof EngineFileError && origin === 'null' && location.protocol !== 'file:') showStuck('frame')
    else if (error instanceof EngineFileError) showStuck('file', fileOf(error.file))
    else showStuck('error')
    throw error
  })
