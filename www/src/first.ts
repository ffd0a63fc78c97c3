// Before the first frame, or the page would flash in another theme, or as a
// whole page inside a lesson.

import { THEMES, loadPreferences, showTheme } from './settings'
import { watchStart } from './start'

watchStart()

const { hash } = location
const lesson = /[?&]lesson(&|$)/.test(hash)
const [, wanted] = /[?&]theme=(\w+)/.exec(hash) ?? []
if (lesson) document.documentElement.dataset['lesson'] = ''
showTheme(lesson ? (THEMES.find(theme => theme === wanted) ?? 'system') : loadPreferences().theme)
