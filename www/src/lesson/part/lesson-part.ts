// What the script of the lessons leaves to the page: see use-lesson.tsx.

import styles from '../../../styles/lesson.css'
import { Collect } from '../class/collect'
import { Notes } from '../class/notes'
import { Projector } from '../class/projector'
import { Editor } from '../edit/editor'
import { Lessons } from '../lessons'
import { PackageView } from '../package/package-view'
import { AnswerSheets, Worksheets } from '../paper/sheets'
import { setViews } from '../views'

export const lesson = { Lessons }

// Those of the trainer take from the lessons, so they cannot be taken from there.
setViews({
  opened: { sheet: Worksheets, answers: AnswerSheets, class: Projector, notes: Notes, package: PackageView },
  addressed: { edit: Editor },
  Collect,
})

// Put on by the script, so that no policy and no element of the page has to know of them.
const sheet = new CSSStyleSheet()
sheet.replaceSync(styles)
document.adoptedStyleSheets.push(sheet)

Object.assign(globalThis, { stageohmLesson: lesson })
