import { defineConfig, devices } from '@playwright/test'
import { address } from './places'

const { origin, port, pathname } = new URL(address)

export default defineConfig({
  testDir: '.',
  outputDir: '../output',
  fullyParallel: true,
  forbidOnly: 'CI' in process.env,
  reporter: 'list',
  // Two at a time, since each brings a browser; and a machine may be busy.
  workers: 2,
  timeout: 60_000,
  expect: { timeout: 15_000 },
  use: {
    ...devices['Desktop Chrome'],
    baseURL: address,
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: process.env['STAGEOHM_CHROMIUM'] ?? '/usr/bin/chromium',
      // The browser refuses to lock itself in for root.
      chromiumSandbox: process.getuid?.() !== 0,
    },
  },
  webServer: {
    command: `node --eval "import('./tools/host.mjs').then(({ host }) => host(${port}, '${pathname}'))"`,
    cwd: '../..',
    url: `${origin}${pathname}`,
  },
})
