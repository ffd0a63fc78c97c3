// What the script that makes an answer heard leaves to the page: see hear-it.tsx.

import styles from '../../styles/hear.css'
import { wear } from '../base/wear'
import { Panel } from './panel'

export const hear = { Panel }

wear(styles)

Object.assign(globalThis, { stageohmHear: hear })
