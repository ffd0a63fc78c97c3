// All tests, in an order that finds the cheap faults first.

import { building } from './build.mjs'
import { run, say } from './command.mjs'
import { python } from './python.mjs'
import { setUpBuild, setUpTests } from './setup.mjs'
import { chromium, firefox, miniBrowser, pulseaudio } from './system-programs.mjs'

const steps = () => [
  ['The Rust is formatted', 'cargo', ['fmt', '--all', '--check']],
  ['The Rust has no warnings', 'cargo', clippy('--workspace', '--all-features')],
  ['The bindings have no warnings', 'cargo', clippy('--package', 'stageohm-web', '--target', 'wasm32-unknown-unknown')],
  [
    'What is heard has no warnings',
    'cargo',
    clippy('--package', 'stageohm-hear', '--target', 'wasm32-unknown-unknown'),
  ],
  ['The core computes', 'cargo', ['test', '--locked', '--workspace']],
  [
    'The documentation of the core builds',
    'cargo',
    ['doc', '--locked', '--workspace', '--no-deps'],
    { RUSTDOCFLAGS: '-D warnings' },
  ],
  ['The other files are formatted', 'prettier', ['--check', '.']],
  ['The scripts have no faults that can be seen', 'oxlint', ['--deny-warnings', 'www', 'tools', 'tests']],
  ['No library has a known fault', 'node', ['tools/main.mjs', 'advisories']],
  ['The page builds', ...building],
  ['Another folder gives the same page', 'node', ['tools/same.mjs']],
  ['The service worker and the tools do what they say', 'node', ['--test', 'tests/offline/', 'tests/tools/']],
  ['The page reads whatever there is to read', 'node', ['--test', 'tests/fuzz/']],
  ['The types of the page fit', 'tsc', []],
  ['The types of its service worker fit', 'tsc', ['--project', 'www/offline']],
  ['The types of its tests fit', 'tsc', ['--project', 'tests/browser']],
  [
    'The bindings speak JavaScript',
    'cargo',
    ['test', '--locked', '--package', 'stageohm-web', '--target', 'wasm32-unknown-unknown', '--lib', '--test', '*'],
    { CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER: 'wasm-bindgen-test-runner' },
  ],
  [
    'Faults are found in few minutes, and sounds told apart',
    'cargo',
    ['test', '--locked', '--release', '--package', 'stageohm', '--test', 'fault_search', '--test', 'listen_families'],
  ],
  ['Others compute the same', python, ['-m', 'pytest', '--quiet', '-o', 'python_files=*.py', 'tests/reference']],
  [
    'The page works in Firefox and WebKit',
    'node',
    ['--test', 'tests/engines/'],
    { STAGEOHM_FIREFOX: firefox(), STAGEOHM_MINIBROWSER: miniBrowser(), STAGEOHM_PULSEAUDIO: pulseaudio() },
  ],
  ['Every path of the bench can be gone', 'node', ['tools/main.mjs', 'bench', '--brief']],
  [
    'The page works in a browser',
    'playwright',
    ['test', '--config', 'tests/browser'],
    { STAGEOHM_CHROMIUM: chromium() },
  ],
]

export function test() {
  setUpBuild()
  setUpTests()
  const all = steps()
  all.forEach(([name, program, args, env = {}], index) => {
    say(`${index + 1}/${all.length} ${name}`)
    try {
      run(program, args, env)
    } catch (error) {
      console.log(`\nFailed: ${name}`)
      console.log(`${index} passed, 1 failed`)
      throw error
    }
  })
  console.log(`\n${all.length} passed, 0 failed`)
}

function clippy(...where) {
  return ['clippy', '--locked', '--all-targets', ...where, '--', '-D', 'warnings']
}
