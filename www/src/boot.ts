// Before the first frame, or the page would flash in another theme, or as a
// whole page inside a lesson.

import { loadPreferences } from './screen/settings'
import { THEMES, showTheme } from './screen/theme'
import { watchStart } from './base/start-watch'

watchStart()

const { hash } = location
const embed = /[?&]lesson(&|$)/.test(hash)
const [, wanted] = /[?&]theme=(\w+)/.exec(hash) ?? []
if (embed) document.documentElement.dataset['lesson'] = ''
showTheme(embed ? (THEMES.find(theme => theme === wanted) ?? 'system') : loadPreferences().theme)
