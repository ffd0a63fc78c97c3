// What the script of the picture leaves to the page: see rig.tsx.

import { RigDrawing } from './drawing'
import { layOut } from './layout'

export const drawn = { RigDrawing, layOut }

Object.assign(globalThis, { stageohmRig: drawn })
