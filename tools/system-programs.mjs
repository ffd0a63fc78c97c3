// What the tests need of the system: a browser, a circuit simulator, and Python.

import { output, run, say } from './command.mjs'

const needs = [
  // A browser without any font shows nothing to measure.
  { what: 'Chromium', isThere: () => chromium() !== undefined, packages: ['chromium', 'fonts-dejavu-core'] },
  { what: 'ngspice', isThere: () => output('ngspice', ['--version']) !== null, packages: ['ngspice'] },
  {
    what: 'Python 3.11 or later with venv',
    isThere: () => output('python3', ['-c', 'import ensurepip, sys; sys.exit(sys.version_info < (3, 11))']) !== null,
    packages: ['python3', 'python3-venv'],
  },
  { what: 'Firefox', isThere: () => firefox() !== undefined, packages: ['firefox-esr'], optional: true },
  {
    what: "WebKit's driver with its browser, and Xvfb",
    isThere: () => miniBrowser() !== undefined && path('WebKitWebDriver') !== null && path('Xvfb') !== null,
    packages: ['webkit2gtk-driver', 'xvfb'],
    optional: true,
  },
  { what: 'PulseAudio', isThere: () => pulseaudio() !== undefined, packages: ['pulseaudio'], optional: true },
]

/** The second browser for the tests, undefined where there is none. */
export function firefox() {
  const names = [process.env.STAGEOHM_FIREFOX, 'firefox-esr', 'firefox'].filter(Boolean)
  return names.map(path).find(found => found !== null)
}

/** The small browser that comes with WebKit's driver, which is on no path. */
export function miniBrowser() {
  const places = '/usr/lib/*/webkit2gtk-4.*/MiniBrowser /usr/libexec/webkit2gtk-4.*/MiniBrowser'
  const found = output('sh', ['-c', `ls -d ${places} 2> /dev/null || true`])
  const names = [process.env.STAGEOHM_MINIBROWSER, ...(found ?? '').split('\n').reverse()].filter(Boolean)
  return names.find(name => path(name) !== null)
}

/** Something for Firefox to put sound out to, without which it takes none in. */
export function pulseaudio() {
  return path('pulseaudio') ?? undefined
}

function path(name) {
  return output('sh', ['-c', 'command -v "$0"', name])
}

/** The browser for the tests, undefined where there is none. */
export function chromium() {
  const names = [process.env.STAGEOHM_CHROMIUM, 'chromium', 'chromium-browser'].filter(Boolean)
  const name = names.find(name => output(name, ['--version']) !== null)
  return name && path(name)
}

export function ensureSystemPrograms() {
  const missing = needs.filter(({ isThere }) => !isThere())
  if (missing.length === 0) return
  const packages = missing.flatMap(({ packages }) => packages)
  const asRoot = rootCommand()
  if (asRoot !== null) {
    say(`Installing ${packages.join(', ')} from the system's packages (about two minutes)`)
    run(...asRoot('apt-get', ['update', '--quiet']))
    run(...asRoot('apt-get', ['install', '--quiet', '--yes', '--no-install-recommends', ...packages]))
  }
  const still = missing.filter(({ isThere }) => !isThere())
  const untested = still.filter(({ optional }) => optional).map(({ what }) => what)
  if (untested.length > 0) say(`Not here, and so not tested: ${untested.join(' and ')}`)
  const lacking = still.filter(({ optional }) => !optional).map(({ what }) => what)
  if (lacking.length > 0) {
    throw new Error(
      `The tests need ${lacking.join(' and ')}. On Debian: apt-get install ${packages.join(' ')}. ` +
        'Elsewhere install them so that they are on the PATH; STAGEOHM_CHROMIUM may name the browser.',
    )
  }
}

/** How to run a program as root without being asked, null where that cannot be. */
function rootCommand() {
  if (output('apt-get', ['--version']) === null) return null
  const quiet = ['DEBIAN_FRONTEND=noninteractive']
  if (process.getuid() === 0) return (program, args) => ['env', [...quiet, program, ...args]]
  if (output('sudo', ['-n', 'true']) !== null) {
    return (program, args) => ['sudo', ['-n', 'env', ...quiet, program, ...args]]
  }
  return null
}
