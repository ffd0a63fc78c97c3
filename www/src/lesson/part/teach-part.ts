// What the script of the trainer's ways leaves to the lessons: see taught.tsx.

import styles from '../../../styles/teach.css'
import { wear } from '../../base/wear'
import { Collect } from '../class/collect'
import { Notes } from '../class/notes'
import { Projector } from '../class/projector'
import { Editor } from '../edit/editor'
import { PackageView } from '../package/package-view'
import { AnswerSheets, Worksheets } from '../paper/sheets'
import type { Teach } from '../taught'

const teach: Teach = {
  opened: { sheet: Worksheets, answers: AnswerSheets, class: Projector, notes: Notes, package: PackageView },
  Editor,
  Collect,
}

wear(styles)
Object.assign(globalThis, { stageohmTeach: teach })
