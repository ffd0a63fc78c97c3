import { h, render } from 'preact'
import { App } from './app'
import { beginAwake } from './awake'
import { startEngine } from './engine'
import { keepAtHand } from './offline'
import { listenForPrinter } from './paper'
import { clearPage } from './saved-page'
import { isLesson, reportHeight } from './lesson'
import { start } from './screen'
import { getState } from './store'

startEngine()
  .then(() => {
    start()
    keepAtHand()
    beginAwake()
    const page = clearPage()
    if (page === null) return
    render(h(App, null), page)
    listenForPrinter()
    if (isLesson(getState())) reportHeight(page)
  })
  .catch((error: unknown) => {
    // The engine brings the words too, so these alone stand in the page itself.
    // A page that was saved without its files still looks alive: it is not.
    if (document.getElementById('page')?.dataset['drawn'] !== undefined) clearPage()
    document.getElementById('failed')?.removeAttribute('hidden')
    throw error
  })
