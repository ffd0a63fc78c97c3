import { h, render } from 'preact'
import { App } from './app'
import { startEngine } from './engine'
import { loadPreferences, showTheme } from './settings'
import { start } from './screen'

// Before the first frame, or the page would flash in the other theme.
showTheme(loadPreferences().theme)

const root = document.getElementById('page')

startEngine()
  .then(() => {
    start()
    root?.replaceChildren()
    if (root !== null) render(h(App, null), root)
  })
  .catch((error: unknown) => {
    // The engine brings the words too, so these alone stand in the page itself.
    document.getElementById('failed')?.removeAttribute('hidden')
    throw error
  })
