import { defineConfig, devices } from '@playwright/test'
import { address } from './places'

const { origin, port, pathname } = new URL(address)

export default defineConfig({
  testDir: '.',
  outputDir: '../output',
  fullyParallel: true,
  // A shared machine may be slow; a test that hangs still ends.
  timeout: 90_000,
  expect: { timeout: 15_000 },
  // A machine may be out of breath once; see there.
  retries: 'CI' in process.env ? 1 : 0,
  forbidOnly: 'CI' in process.env,
  reporter: [['list'], ['./second-tries.mjs']],
  // Each brings a browser.
  workers: 2,
  use: {
    ...devices['Desktop Chrome'],
    baseURL: address,
    // It would bring the whole page again for every test.
    serviceWorkers: 'block',
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
