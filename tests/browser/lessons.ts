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

/** Two steps that ask nothing. */
export const TOLD = {
  ...HALF,
  id: 'told',
  pass: undefined,
  steps: ['The first', 'The last'].map(title => ({ kind: 'read', title, text: 'Nothing is asked.' })),
}

/** A step that asks for a reading which is not there: whatever is said, there are no points. */
export const UNANSWERABLE = {
  ...HALF,
  id: 'unanswerable',
  steps: [{ kind: 'number', title: 'How much?', text: 'How much of it?', reading: 'nothing', points: 2 }],
}

/** The same before one that can be answered. */
export const HALF_ANSWERABLE = {
  ...HALF,
  id: 'half-answerable',
  steps: [...UNANSWERABLE.steps, ...HALF.steps.slice(1, 2)],
}

/** One step: of the same source, the load that loses least comes first: 1 MΩ, 100 kΩ, 10 kΩ. */
export const ORDERED = {
  ...HALF,
  id: 'ordered',
  title: 'Loads in order',
  steps: [
    {
      kind: 'choice',
      title: 'Which loses least?',
      text: 'Put the load that loses least first.',
      reading: 'loss',
      points: 2,
      ways: [
        { name: 'Amplifier', values: { load_r: '100 kΩ' } },
        { name: 'DI box', values: { load_r: '1 MΩ' } },
        { name: 'Line input', values: { load_r: '10 kΩ' } },
      ],
    },
  ],
}
