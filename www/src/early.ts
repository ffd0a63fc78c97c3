// First of early.ts, boot.ts and main.ts, the scripts of the page in their order. Its
// lines are few, since of a page that was cut off in here nothing would be seen: what
// fails before the page can say so is noted, and styles that hang do not keep it from
// being shown for ever.

import { PATIENCE } from './base/patience'

declare global {
  interface Window {
    /** What failed so far. */
    earlyFailures?: Event[]
  }
}

const early: Event[] = (window.earlyFailures = [])
addEventListener('error', event => early.push(event), true)

setTimeout(() => {
  for (const link of document.querySelectorAll<HTMLLinkElement>('link[rel=stylesheet]')) {
    if (link.sheet !== null) continue
    // Those for paper the browser does not wait for.
    link.media = 'print'
    link.onload = () => link.removeAttribute('media')
  }
}, PATIENCE)
