// The piece of the page that comes after the first answer: what stands below it, and
// what is looked up. See use-more.ts.

import { Backwards } from './answer/backwards'
import { beginAwake } from './awake'
import { Glance } from './answer/glance'
import { showRowBar } from './answer/row-bar'
import { Reference } from './look-up/reference'
import { Rest } from './rest'
import { Seen } from './seen'
import { Settings } from './settings-panel'
import { KeepRig } from './start/keep-rig'
import { Share } from './share/share'
import { offerGear, Stage } from './use-stage'
import { About } from './start/about'
import { listenForPrinter } from './printout/paper'

export const more = { About, Backwards, Glance, KeepRig, Reference, Rest, Seen, Settings, Share, Stage }

Object.assign(globalThis, { stageohmMore: more })
listenForPrinter()
beginAwake()
offerGear()
showRowBar()
