// A lesson for a class, whose texts are all different and say where they stand.

const told = (word: string) => ({
  title: `Title ${word}`,
  text: `Asked of the ${word}.`,
  because: `Because the ${word} is so.`,
  note: `Mind the ${word} in class.`,
})

const rig = {
  calculator: 'pickup',
  mains: '50',
  values: {
    ...{ coils: 'one', phase: 'in', volume: 'fitted', tone: 'before', taper: 'audio', coil_l: '4.5 H', coil_r: '8 kΩ' },
    ...{ coil_c: '150 pF', coil_loss: '', coupling: '0', volume_r: '250 kΩ', volume_turn: '100 %', tone_r: '250 kΩ' },
    ...{ tone_c: '47 nF', tone_turn: '100 %', lead_length: '6 m', lead_c: '100 pF/m', lead_r: '100 mΩ/m' },
    ...{ lead_l: '600 nH/m', load_r: '10 kΩ', load_c: '0 F', frequency: '5 kHz' },
  },
}

export const taught = {
  stageohm: 'lesson',
  version: 1,
  id: 'taught',
  revision: 3,
  engine: '0.1.0',
  language: 'en',
  title: 'A sample for a class',
  by: 'Somebody',
  licence: 'CC0-1.0',
  minutes: 10,
  pass: 0.5,
  note: 'Bring a bass.',
  rig,
  draw: { lead_length: { of: ['3 m', '5 m', '7 m', '9 m', '11 m'] } },
  steps: [
    { kind: 'read', title: 'Title load-in', text: 'The bass is here.' },
    { kind: 'magnitude', ...told('order'), reading: 'impedance_1k', points: 1 },
    {
      kind: 'number',
      ...told('level'),
      reading: 'level_1k',
      good: '1 dB',
      none: '8 dB',
      points: 2,
      given: ['lead_length'],
    },
    {
      kind: 'curve',
      ...told('curve'),
      plot: 'response',
      from: '50',
      to: '10k',
      good: '2 dB',
      none: '12 dB',
      points: 3,
    },
    {
      ...{
        kind: 'number',
        ...told('resonance'),
        values: { load_r: '1M' },
        reading: 'peak',
        good: '10 %',
        none: '60 %',
      },
      points: 2,
    },
    {
      ...{ kind: 'target', ...told('drawer'), points: 3, limits: [{ reading: 'level_1k', least: '-3 dB' }], budget: 5 },
      drawer: [
        { name: 'A high input', field: 'load_r', value: '1M', cost: 3 },
        { name: 'A middling input', field: 'load_r', value: '47k', cost: 1 },
      ],
    },
    {
      ...{ kind: 'choice', ...told('ways'), reading: 'level_1k', best: 'most', points: 2 },
      ways: [
        { name: 'Into the recorder', values: { load_r: '10k' } },
        { name: 'Into the combo', values: { load_r: '1M' } },
        { name: 'Into the mixer', values: { load_r: '40k' } },
      ],
    },
    {
      // Another coil, or what is measured would tell what was asked before.
      ...{ kind: 'fault', ...told('fault'), values: { load_r: '1M', coil_l: '6 H' }, points: 2 },
      measures: ['level_1k', 'peak'],
      cases: [
        { name: 'All is well', values: {} },
        { name: 'A very long lead', values: { lead_length: '45 m' } },
        { name: 'A line input', values: { load_r: '10k' } },
      ],
    },
  ],
}
