// The piece of the page that comes after the first answer: what stands below it, and
// what is looked up. See use-more.ts.

import { Asked } from './asked'
import { beginAwake } from './awake'
import { ChooseFile } from './base/choose-file'
import { keepAtHand } from './base/offline'
import { useDropped } from './base/use-dropped'
import { useUndoKeys } from './base/undo-keys'
import { useMedia } from './base/use-media'
import { Compact } from './compact'
import { askStage } from './engine/stage'
import { Glance } from './answer/glance'
import { showRowBar } from './answer/row-bar'
import { Reference } from './look-up/reference'
import { Rest } from './rest'
import { Seen } from './seen'
import { Settings } from './settings-panel'
import { KeepRig } from './start/keep-rig'
import { OfflineLine } from './start/offline-line'
import { Share } from './share/share'
import { LateScreen } from './late-screens'
import { Notice } from './notice'
import { PageNotices } from './page-notices'
import { wantHear } from './engine/hearing'
import { SoleSound } from './engine/sole-sound'
import { painted } from './hear/painted'
import { useStops } from './hear/use-stops'
import { Volume } from './hear/volume'
import { offerGear } from './use-stage'
import { About } from './start/about'
import { listenForPrinter } from './printout/paper'

// Stage, finder and lessons come later, and ask one worker: who asks it stands here for all, as does what two of them need.
export const more = {
  About,
  Asked,
  ChooseFile,
  Compact,
  Glance,
  KeepRig,
  LateScreen,
  OfflineLine,
  Notice,
  PageNotices,
  Reference,
  Rest,
  Seen,
  Settings,
  Share,
  SoleSound,
  Volume,
  askStage,
  keepAtHand,
  painted,
  useDropped,
  useMedia,
  useStops,
  useUndoKeys,
  wantHear,
}

Object.assign(globalThis, { stageohmMore: more })
listenForPrinter()
beginAwake()
offerGear()
showRowBar()
