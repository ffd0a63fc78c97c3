// The first script of the page.

import { begin } from './begin'

begin()
