import type { Settings } from '../../generated/contract'
import { print, printing } from '../base/unit'

export function decibels(value: number, settings: Settings): string {
  return print(value, printing('decibel', 'dB', settings), settings)
}
