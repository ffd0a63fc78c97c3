// Second of early.ts, boot.ts and main.ts, the scripts of the page in their order. It
// stands in the page itself and runs before the first frame.

import { begin } from './begin'

begin()
