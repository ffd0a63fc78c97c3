import { useEffect, useState } from 'preact/hooks'

/** An input of the device, once the reader let the page know of them. */
export interface Input {
  readonly id: string
  readonly name: string
}

/** The inputs that there are, looked for anew when `when` changes. */
export function useInputs(when: unknown): readonly Input[] {
  const [inputs, setInputs] = useState<readonly Input[]>([])
  useEffect(() => {
    if (!hasMicrophone()) return
    let over = false
    const look = async () => {
      const devices = await navigator.mediaDevices.enumerateDevices().catch(() => [])
      const known = devices.filter(
        ({ kind, deviceId, label }) => kind === 'audioinput' && deviceId !== '' && label !== '',
      )
      if (!over) setInputs(known.map(({ deviceId, label }) => ({ id: deviceId, name: label })))
    }
    const changed = () => void look()
    changed()
    navigator.mediaDevices.addEventListener('devicechange', changed)
    return () => {
      over = true
      navigator.mediaDevices.removeEventListener('devicechange', changed)
    }
  }, [when])
  return inputs
}

/** Whether the browser lets this page ask for a microphone at all. */
export function hasMicrophone(): boolean {
  return (navigator as Partial<Navigator>).mediaDevices !== undefined && 'AudioContext' in window
}
