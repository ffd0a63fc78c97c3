// A lesson with a step of each kind, for the tests of lessons.

import { deflateRawSync } from 'node:zlib'

const FAULTS = [
  { name: 'Nothing wrong', values: {} },
  { name: 'Leads in series', values: { lead_length: '25 m' } },
  { name: 'Plugged into a line input', values: { load_r: '10k' } },
]

const because = 'The load divides with the pickup: *this is said after*.'

export const sample = {
  stageohm: 'lesson',
  version: 1,
  id: 'sample',
  revision: 3,
  language: 'en',
  title: 'A lesson for tests',
  minutes: 5,
  pass: 0.5,
  note: 'trainer-only words',
  rig: { calculator: 'pickup', mains: '50', values: { lead_length: '6 m', load_r: '10 kΩ' } },
  draw: { lead_length: { of: ['3 m', '6 m', '10 m'] } },
  steps: [
    { kind: 'read', title: 'Reading', text: 'A *stressed* word, and a [[term-ground-loop]].\n\nA second paragraph.' },
    {
      kind: 'magnitude',
      title: 'Magnitude',
      text: 'How large?',
      reading: 'impedance_1k',
      points: 1,
      because,
      note: 'trainer-only words',
    },
    {
      kind: 'number',
      title: 'Number',
      text: 'How much?',
      reading: 'level_1k',
      good: '1 dB',
      none: '8 dB',
      points: 2,
      open: ['load_r'],
      given: ['lead_length'],
      hints: ['the first hint', 'the second hint'],
      because,
    },
    {
      kind: 'curve',
      title: 'Curve',
      text: 'Draw it.',
      plot: 'response',
      from: '50',
      to: '10k',
      good: '2 dB',
      none: '12 dB',
      points: 3,
      open: ['load_r'],
      because,
    },
    {
      kind: 'target',
      title: 'Target',
      text: 'Keep the level.',
      points: 2,
      limits: [{ reading: 'level_1k', least: '-2 dB' }],
      drawer: [
        { name: 'Active DI box', field: 'load_r', value: '1M', cost: 3 },
        { name: 'Passive DI box', field: 'load_r', value: '40k', cost: 2 },
        { name: 'Short lead', field: 'lead_length', value: '3 m', cost: 2 },
      ],
      budget: 4,
      because,
    },
    {
      kind: 'fault',
      title: 'Fault',
      text: 'What is wrong?',
      values: { load_r: '1M' },
      points: 2,
      measures: ['level_1k', 'peak'],
      plot: 'response',
      cases: FAULTS,
      because,
    },
    {
      kind: 'choice',
      title: 'Choice',
      text: 'The loudest first.',
      points: 2,
      reading: 'level_1k',
      best: 'most',
      ways: [
        { name: 'Line input', values: { load_r: '10k' } },
        { name: 'Amplifier input', values: { load_r: '1M' } },
        { name: 'Mixer input', values: { load_r: '40k' } },
      ],
      because,
    },
    { kind: 'taste', title: 'By taste', text: 'Which is which?', points: 1 },
  ],
}

/** The address of a lesson that stands in it. */
export function packed(lesson: unknown, query = ''): string {
  return `#1/lesson/${deflateRawSync(JSON.stringify(lesson)).toString('base64url')}${query}`
}

/** The address of a step of the sample, by its kind. */
export function stepOf(kind: string, seed = 1): string {
  return packed(sample, `?seed=${seed}&step=${1 + sample.steps.findIndex(step => step.kind === kind)}`)
}
