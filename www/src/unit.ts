// How numbers of a unit are printed where the page itself prints them: on axes,
// at the finger, and where a slider is to stop on a round number.

import { format, formatPrefix, precisionPrefix } from 'd3-format'
import { tickStep } from 'd3-array'
import type { NumberDescription, Settings, Unit } from '../generated/contract'
