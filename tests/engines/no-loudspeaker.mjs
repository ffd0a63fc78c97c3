// A way out for sound on a machine without any: Firefox runs none that goes nowhere.

import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { until } from './until.mjs'

/** Where programs find it, as a part of their environment, and what ends it. */
export async function noLoudspeaker() {
  const program = process.env.STAGEOHM_PULSEAUDIO
  if (program === undefined) return { environment: {}, end: () => undefined }
  const folder = mkdtempSync(join(tmpdir(), 'no-loudspeaker-'))
  const socket = join(folder, 'socket')
  const modules = [`module-native-protocol-unix socket=${socket} auth-anonymous=1`, 'module-null-sink']
  const args = ['-n', '--daemonize=no', '--exit-idle-time=-1', '--disable-shm=yes', '--use-pid-file=no']
  const server = spawn(program, [...args, ...modules.flatMap(module => ['--load', module])], {
    stdio: 'ignore',
    env: { ...process.env, HOME: folder, XDG_RUNTIME_DIR: folder },
  })
  const end = () => {
    server.kill()
    rmSync(folder, { recursive: true, force: true })
  }
  try {
    await until('a way out for sound', () => existsSync(socket))
  } catch (error) {
    end()
    throw error
  }
  return { environment: { PULSE_SERVER: `unix:${socket}` }, end }
}
