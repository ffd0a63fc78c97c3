// What the script of the finder of faults leaves to the page: see use-fault.tsx.

import styles from '../../styles/fault.css'
import { wear } from '../base/wear'
import { Fault } from './fault'

export const fault = { Fault }

wear(styles)

Object.assign(globalThis, { stageohmFault: fault })
