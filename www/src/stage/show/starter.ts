// What a drawer begins with: generic classes, to be counted and changed by its owner.

import type { Gear, GearKind, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { emptyShow } from './project'

type Values = Readonly<Record<string, string>>

/** By the word of its name: `stage-starter-…`. */
const STARTER: readonly (readonly [word: string, kind: GearKind, values: Values])[] = [
  ['vocal-mic', 'source', { source: 'microphone', microphone: 'dynamic', microphone_emf: '4 mV', microphone_r: '250' }],
  [
    'condenser',
    'source',
    {
      source: 'microphone',
      microphone: 'condenser',
      microphone_emf: '20 mV',
      microphone_r: '150',
      microphone_current: '3 mA',
    },
  ],
  ['guitar', 'source', { source: 'pickup', emf: '300 mV' }],
  ['piezo', 'source', { source: 'piezo', emf: '200 mV' }],
  ['keyboard', 'source', { source: 'output', emf: '-10 dBV', crest: '12', source_r: '1k' }],
  ['laptop', 'source', { source: 'output', emf: '500 mV', crest: '12', source_r: '100' }],
  ['line', 'source', { source: 'balanced', emf: '0 dBu', crest: '14', source_r: '150' }],
  ['instrument-3', 'lead', { lead_length: '3 m', lead_c: '110 pF' }],
  ['instrument-6', 'lead', { lead_length: '6 m', lead_c: '110 pF' }],
  ['mic-5', 'lead', { lead_length: '5 m', lead_c: '70 pF' }],
  ['mic-10', 'lead', { lead_length: '10 m', lead_c: '70 pF' }],
  ['passive-di', 'di', { box: 'passive', ground: 'lifted' }],
  ['active-di', 'di', { box: 'active', powered: 'phantom', current: '4 mA' }],
  [
    'isolator',
    'isolator',
    {
      ratio: '1:1',
      r1: '60',
      r2: '60',
      magnetising: '20 H',
      core_loss: '100k',
      leakage: '5 mH',
      c1: '300p',
      largest: '+18 dBu',
    },
  ],
  ['pad', 'pad', { pad: '20 dB', pad_r: '1k' }],
  ['input', 'input', { console_r: '2.2k', ein: '-126 dBu' }],
]

/** An empty show with what most have in their drawer, not counted yet. */
export function starterShow(): Show {
  const gear = STARTER.map(([id, kind, values]): Gear => ({
    id,
    name: say(`stage-starter-${id}`),
    kind,
    values: { ...values },
    count: null,
    note: '',
    measured: '',
  }))
  return { ...emptyShow(), name: say('stage-new-name'), gear }
}
