// What gear is usually, to start from: generic classes with values of common practice,
// no makes.

import type { GearKind } from '../../../generated/contract'
import type { Texts } from '../show/values'

export interface GearClass {
  /** Its name is said by `stage-class-<id>`. */
  readonly id: string
  readonly kind: GearKind
  readonly values: Texts
}

const balanced = (emf: string): Texts => ({ source: 'balanced', emf, crest: '14', source_r: '150' })
const output = (emf: string, source_r: string): Texts => ({ source: 'output', emf, crest: '12', source_r })
const microphone = (microphone: string, microphone_emf: string, microphone_r: string): Texts => ({
  source: 'microphone',
  microphone,
  microphone_emf,
  microphone_r,
})

export const CLASSES: readonly GearClass[] = [
  { id: 'vocal', kind: 'source', values: microphone('dynamic', '4 mV', '250') },
  { id: 'drum', kind: 'source', values: microphone('dynamic', '30 mV', '200') },
  {
    id: 'condenser',
    kind: 'source',
    values: { ...microphone('condenser', '20 mV', '150'), microphone_current: '3 mA' },
  },
  { id: 'ribbon', kind: 'source', values: microphone('ribbon', '5 mV', '300') },
  { id: 'guitar', kind: 'source', values: { source: 'pickup', emf: '200 mV' } },
  {
    id: 'humbucker',
    kind: 'source',
    values: {
      ...{ source: 'pickup', emf: '300 mV', coils: 'series', coil_l: '2 H', coil_r: '4k', coupling: '0.3' },
      ...{ volume_r: '500k', tone_r: '500k' },
    },
  },
  {
    id: 'bass',
    kind: 'source',
    values: {
      ...{ source: 'pickup', emf: '300 mV', coil_l: '5 H', coil_r: '9k', coil_c: '150p', tone_c: '47n' },
      ...{ bass: '40 Hz', treble: '2 kHz' },
    },
  },
  { id: 'piezo', kind: 'source', values: { source: 'piezo', emf: '200 mV' } },
  { id: 'keyboard', kind: 'source', values: output('-10 dBV', '1k') },
  { id: 'laptop', kind: 'source', values: output('500 mV', '100') },
  { id: 'line', kind: 'source', values: balanced('0 dBu') },
  { id: 'loudspeaker', kind: 'source', values: { source: 'loudspeaker', speaker_emf: '10 V' } },
  { id: 'instrument-3', kind: 'lead', values: { lead_length: '3 m', lead_c: '110 pF' } },
  { id: 'instrument-6', kind: 'lead', values: { lead_length: '6 m', lead_c: '110 pF' } },
  { id: 'microphone-5', kind: 'lead', values: { lead_length: '5 m', lead_c: '70 pF' } },
  { id: 'microphone-10', kind: 'lead', values: { lead_length: '10 m', lead_c: '70 pF' } },
  { id: 'multicore', kind: 'lead', values: { lead_length: '40 m', lead_c: '70 pF' } },
  { id: 'active', kind: 'di', values: { box: 'active', powered: 'phantom', current: '4 mA' } },
  { id: 'battery', kind: 'di', values: { box: 'active', powered: 'battery' } },
  { id: 'passive', kind: 'di', values: { box: 'passive', ground: 'lifted' } },
  {
    id: 'isolator',
    kind: 'isolator',
    values: {
      ...{ ratio: '1:1', r1: '60', r2: '60', magnetising: '20 H', core_loss: '100k', leakage: '5 mH' },
      ...{ c1: '300p', largest: '+18 dBu' },
    },
  },
  { id: 'pad-10', kind: 'pad', values: { pad: '10 dB', pad_r: '1k' } },
  { id: 'pad-20', kind: 'pad', values: { pad: '20 dB', pad_r: '1k' } },
  { id: 'stage-box', kind: 'input', values: { console_r: '2.2k', ein: '-126 dBu' } },
  { id: 'microphone-input', kind: 'input', values: { console_r: '1.5k', ein: '-128 dBu' } },
  { id: 'line-input', kind: 'input', values: { console_r: '10k', console_most: '+24 dBu', ein: '-95 dBu' } },
]
