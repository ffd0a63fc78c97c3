// Whether the bench only has to go through, for the tests: its times mean nothing then.

/** Read by the benches in Rust and Python too. */
const BRIEF = 'STAGEOHM_BRIEF'

export function beBrief() {
  process.env[BRIEF] = '1'
}

/** So many of something that is measured, or a few. */
export function times(many) {
  return BRIEF in process.env ? Math.min(many, 3) : many
}
