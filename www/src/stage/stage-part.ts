// What the script of the stage leaves to the page: see use-stage.tsx.

import styles from '../../styles/stage.css'
import { setState } from '../screen/store'
import { FromGear } from './gear/from-gear'
import { openLastShow } from './show/opening'
import { Stage } from './stage'

export const stage = { Stage, openLastShow }

// Put on by the script, so that no policy and no element of the page has to know of them.
const sheet = new CSSStyleSheet()
sheet.replaceSync(styles)
document.adoptedStyleSheets.push(sheet)

setState({ gear: { FromGear } })
Object.assign(globalThis, { stageohmStage: stage })
