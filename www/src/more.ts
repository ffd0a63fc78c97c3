// The piece of the page that comes after the first answer: what stands below it, and
// what is looked up. See use-more.ts.

import { Asked } from './asked'
import { beginAwake } from './awake'
import { ChooseFile } from './base/choose-file'
import { useUndoKeys } from './base/undo-keys'
import { useMedia } from './base/use-media'
import { Compact } from './compact'
import { askStage } from './engine/stage'
import { BeginningNotice, DamagedNotice } from './kept-notices'
import { Glance } from './answer/glance'
import { showRowBar } from './answer/row-bar'
import { Reference } from './look-up/reference'
import { Rest } from './rest'
import { Seen } from './seen'
import { Settings } from './settings-panel'
import { KeepRig } from './start/keep-rig'
import { Share } from './share/share'
import { LateScreen } from './late-screens'
import { Notice } from './notice'
import { offerGear } from './use-stage'
import { About } from './start/about'
import { listenForPrinter } from './printout/paper'

// Stage, finder and lessons come later, and ask one worker: who asks it stands here for all, as does what two of them need.
export const more = {
  About,
  Asked,
  BeginningNotice,
  ChooseFile,
  Compact,
  DamagedNotice,
  Glance,
  KeepRig,
  LateScreen,
  Notice,
  Reference,
  Rest,
  Seen,
  Settings,
  Share,
  askStage,
  useMedia,
  useUndoKeys,
}

Object.assign(globalThis, { stageohmMore: more })
listenForPrinter()
beginAwake()
offerGear()
showRowBar()
