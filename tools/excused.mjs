// The constants that `./run limits` does not move, each with the reason.

const REASONS = [
  {
    reason: 'a field: the reader sees where it starts and sets it; `typical.rs` holds the starts that judge',
    types: /^(Field|&?\[Field[;\]].*|ChoiceField<.*|Calculator)$/,
  },
  {
    reason: 'where a drawing has its lines, points or margins',
    names: {
      'report/response_plot.rs': ['POINTS', 'STOPS', 'DEEPEST'],
      'calculator/balance.rs': ['POINTS'],
      'calculator/phantom.rs': ['POINTS'],
      'calculator/ground_loop.rs': ['HALF'],
      'ask/tolerance/band.rs': ['STRETCH'],
      'look_up/connector.rs': ['XLR_FACES', 'JACK_2_FACE', 'JACK_3_FACE', 'PHONO_FACE'],
    },
  },
  {
    reason: 'how finely a method steps: a little more or less costs time and leaves the answer within its stated error',
    names: {
      'ask/backwards.rs': ['SAMPLES', 'CLOSE', 'UNCHANGED', 'FINE'],
      'ask/tolerance/layout.rs': ['SEARCHED'],
      'ask/tolerance/search.rs': ['ROUNDS'],
      'numeric/highest.rs': ['GOLDEN'],
      'numeric/shares.rs': ['STEPS'],
      'network/feature.rs': ['SEARCHED', 'STEPS', 'H', 'AWAY'],
      'network/noise.rs': ['PANELS'],
      'network/path.rs': ['WIDTH'],
      'stage/ground/nodal.rs': ['LEFT_OVER', 'BEARABLE', 'NOTHING', 'ROUNDS'],
    },
  },
  {
    reason: 'stands for zero frequency: no capacitor that a field takes passes anything at it',
    names: { 'calculator/whole_line/line.rs': ['DIRECT'] },
  },
  {
    reason: 'stands for no end, far beyond what any part has or any signal outlasts',
    names: {
      'calculator/lead_length.rs': ['LEAST_DELAY'],
      'calculator/whole_line/links.rs': ['BLOCKED'],
      'network/line.rs': ['MOST_LOSS'],
    },
  },
  {
    reason: 'no length of nothing: with any one of its numbers moved it is no lead still',
    names: { 'part/lead.rs': ['NONE'] },
  },
  {
    reason: 'room made beforehand, which grows where it is not enough',
    names: { 'words/mod.rs': ['KEYS'] },
  },
]

/** Why a constant is not moved; undefined where it is. */
export function excused({ file, name, type }) {
  return REASONS.find(({ types, names }) => types?.test(type) || names?.[file]?.includes(name))?.reason
}
