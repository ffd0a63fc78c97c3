// What the script of the lessons leaves to the page: see use-lesson.tsx.

import styles from '../../../styles/lesson.css'
import { wear } from '../../base/wear'
import { Lessons } from '../lessons'

export const lesson = { Lessons }

wear(styles)
Object.assign(globalThis, { stageohmLesson: lesson })
