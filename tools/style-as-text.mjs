// Styles that come with a piece of the page, which puts them on itself: what the first
// screen does not need is not in the styles that it waits for.

import { build } from 'esbuild'

export const styleAsText = {
  name: 'style-as-text',
  setup({ initialOptions, onLoad }) {
    onLoad({ filter: /\.css$/ }, async ({ path }) => {
      const options = { entryPoints: [path], minify: initialOptions.minify ?? false, write: false, bundle: true }
      const { outputFiles } = await build(options)
      return { contents: outputFiles[0].text, loader: 'text' }
    })
  },
}
