// A package for a learning system: the lesson, the page that frames it, and the whole
// calculator in its one file, so that nothing is fetched from anywhere else.

import { strToU8, zipSync } from 'fflate'
import { languageTag } from '../../../launch/named'
import launchers from '../../../generated/launchers.json'
import { escaped } from './escaped'
import { manifest, type Standard, type Told } from './manifest'

export interface Packed extends Omit<Told, 'files'> {
  /** The file of the lesson. */
  readonly text: string
  /** What stands behind `stageohm.html` for the lesson to open. */
  readonly address: string
  /** The calculator in one file. */
  readonly page: string
  /** What is said where there is no learning system around it. */
  readonly unreached: string
}

/** The bytes of the package. */
export function packed(
  standard: Standard,
  { text, address, page, unreached, ...told }: Packed,
): Uint8Array<ArrayBuffer> {
  const files = ['index.html', 'launch.js', 'stageohm.html', 'lesson.json']
  const [file, content] = manifest(standard, { ...told, files })
  const all = {
    [file]: strToU8(content),
    'index.html': strToU8(launchPage(told, address, unreached)),
    'launch.js': strToU8(launchers[standard]),
    'stageohm.html': strToU8(page),
    'lesson.json': strToU8(text),
  }
  // The same lesson gives the same bytes, whenever it is packed.
  return zipSync(all, { mtime: new Date(2026, 0, 1) }) as Uint8Array<ArrayBuffer>
}

/** The page that a learning system opens. */
function launchPage({ title, language }: Pick<Told, 'title' | 'language'>, address: string, unreached: string): string {
  return `<!doctype html>
<html lang="${languageTag(language)}">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <link rel="icon" href="data:,">
    <title>${escaped(title)}</title>
    <style>
      html, body { height: 100%; margin: 0; }
      body { display: flex; flex-direction: column; font: 1rem system-ui, sans-serif; }
      p { margin: 0; padding: 0.5rem 1rem; }
      p[hidden] { display: none; }
      iframe { flex: 1; border: 0; width: 100%; }
    </style>
  </head>
  <body>
    <p role="alert" lang="en" hidden data-unreached="${escaped(unreached)}"></p>
    <iframe title="${escaped(title)}" sandbox="allow-scripts allow-downloads allow-popups" data-src="stageohm.html${escaped(address)}"></iframe>
    <script src="launch.js"></script>
  </body>
</html>
`
}
