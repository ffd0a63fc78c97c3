// What the script of the finder of faults leaves to the page: see use-fault.tsx.

import styles from '../../styles/fault.css'
import { Fault } from './fault'

export const fault = { Fault }

// Put on by the script, so that no policy and no element of the page has to know of them.
const sheet = new CSSStyleSheet()
sheet.replaceSync(styles)
document.adoptedStyleSheets.push(sheet)

Object.assign(globalThis, { stageohmFault: fault })
