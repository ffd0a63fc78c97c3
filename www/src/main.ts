import { h, render } from 'preact'
import { App } from './app'
import { beginAwake } from './awake'
import { startEngine } from './engine'
import { keepAtHand } from './offline'
import { listenForPrinter } from './paper'
import { clearPage } from './saved-page'
import { loadPreferences, showTheme } from './settings'
import { lessonOf, reportHeight } from './lesson'
import { start } from './screen'
import { getState } from './store'

// Before the first frame, or the page would flash in the other theme.
showTheme(loadPreferences().theme)

startEngine()
  .then(() => {
    start()
    keepAtHand()
    beginAwake()
    const page = clearPage()
    if (page === null) return
    render(h(App, null), page)
    listenForPrinter()
    if (lessonOf(getState()) !== null) reportHeight(page)
  })
  .catch((error: unknown) => {
    // The engine brings the words too, so these alone stand in the page itself.
    document.getElementById('failed')?.removeAttribute('hidden')
    throw error
  })
