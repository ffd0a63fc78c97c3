// A small lesson of our own for tests, with keys that a handbook gives.

const LOAD = {
  source_r: '10 kΩ',
  emf: '1 V',
  source_l: '0 H',
  coupling_c: '',
  source_c: '0 F',
  load_r: '10 kΩ',
  load_c: '0 F',
  frequency: '1 kHz',
  limit: '0.5 dB',
}

/** Two steps that ask: half the voltage is 6.02 dB less, and what a source sees of 10 kΩ is 10 kΩ. */
export const HALF = {
  stageohm: 'lesson',
  version: 1,
  id: 'half',
  revision: 3,
  engine: '0.1.0',
  language: 'en',
  title: 'Half the voltage & more',
  minutes: 3,
  pass: 0.5,
  rig: { calculator: 'source-load', mains: '50', values: LOAD },
  steps: [
    { kind: 'read', title: 'Two alike', text: 'A source of 10 kΩ works into 10 kΩ.' },
    {
      kind: 'number',
      title: 'How much is lost?',
      text: 'How many decibels are lost?',
      reading: 'loss',
      good: '0.5 dB',
      none: '6 dB',
      points: 2,
      open: ['load_r'],
    },
    {
      kind: 'number',
      title: 'And into ten times as much?',
      text: 'The load is now 100 kΩ.',
      reading: 'loss',
      values: { load_r: '100 kΩ' },
      good: '0.3 dB',
      none: '3 dB',
      points: 2,
    },
  ],
}
