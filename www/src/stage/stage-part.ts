// What the script of the stage leaves to the page: see use-stage.tsx.

import styles from '../../styles/stage.css'
import { wear } from '../base/wear'
import { setState } from '../screen/store'
import { FromGear } from './gear/from-gear'
import { openLastShow } from './show/opening'
import { Stage } from './stage'

export const stage = { Stage, openLastShow }

wear(styles)

setState({ gear: { FromGear } })
Object.assign(globalThis, { stageohmStage: stage })
