// Graphical symbols of IEC 60617 (from memory), with the signal from the left to
// the right through the middle.

import type { JSX } from 'preact'
import type { Earth, PartSymbol } from '../../generated/contract'
import { HALF, RING } from './layout'

interface Properties {
  readonly symbol: PartSymbol
  /** Whether the signal goes down. */
  readonly down: boolean
}

/** The symbol of a part around the origin, over the line of the signal. */
export function SymbolView({ symbol, down }: Properties) {
  return <g transform={down ? 'rotate(90)' : undefined}>{SYMBOLS[symbol](down ? 'rotate(-90)' : '')}</g>
}

/** Covers the line of the signal where a symbol interrupts it. */
function Cover({ from = -HALF, to = HALF }: { readonly from?: number; readonly to?: number }) {
  return <rect class="cover" x={from} y={-HALF} width={to - from} height={2 * HALF} />
}

type Drawn = (upright: string) => JSX.Element

const SYMBOLS: Readonly<Record<PartSymbol, Drawn>> = {
  coil: () => (
    <>
      <Cover />
      <path class="drawn" d="M-22 0a5.5 5.5 0 0 1 11 0a5.5 5.5 0 0 1 11 0a5.5 5.5 0 0 1 11 0a5.5 5.5 0 0 1 11 0" />
    </>
  ),
  crystal: () => (
    <>
      <Cover />
      <path class="drawn" d="M-22 0H-10M-10-14V14M10-14V14M10 0H22M-5-11H5V11H-5Z" />
    </>
  ),
  source: upright => (
    <>
      <circle class="filled" r="18" />
      <path class="drawn" transform={upright} d="M-10 0q5-11 10 0t10 0" />
      <path class="drawn" d="M18 0h4" />
    </>
  ),
  microphone: () => (
    <>
      <circle class="filled" r="16" />
      <path class="drawn" d="M-16-18V18" />
    </>
  ),
  coaxial: () => (
    <>
      <circle class="drawn" r="9" />
      <path class="drawn" d="M-14-9H14" />
    </>
  ),
  pair: () => (
    <>
      <Cover from={-16} to={16} />
      <path class="drawn" d="M-22 0L-16-4H16L22 0M-22 0L-16 4H16L22 0" />
      <ellipse class="drawn dashed" rx="7" ry="13" />
    </>
  ),
  transformer: () => (
    <>
      <Cover />
      <path
        class="drawn"
        d="M-22 0V-20H-9a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10H-18M22 0V-20H9a5 5 0 0 0 0 10a5 5 0 0 0 0 10a5 5 0 0 0 0 10a5 5 0 0 0 0 10H18M-1.5-20V20M1.5-20V20"
      />
    </>
  ),
  amplifier: () => <path class="filled" d="M-20-20L22 0L-20 20Z" />,
  gain: () => (
    <>
      <path class="filled" d="M-20-20L22 0L-20 20Z" />
      <path class="drawn" d="M-16 22L10-20M3-17L10-20L10.500-12" />
    </>
  ),
  attenuator: upright => (
    <>
      <rect class="filled" x="-18" y="-18" width="36" height="36" />
      <text class="glyph" transform={upright} dy="0.35em">
        dB
      </text>
    </>
  ),
  input: () => (
    <>
      <rect class="filled" x="-20" y="-20" width="40" height="40" />
      <path class="drawn" d="M-11-12L13 0L-11 12Z" />
    </>
  ),
  converter: upright => (
    <>
      <rect class="filled" x="-20" y="-20" width="40" height="40" />
      <path class="drawn" transform={upright} d="M-20 20L20-20" />
      <text class="glyph" transform={upright} x="-10" y="-6">
        A
      </text>
      <text class="glyph" transform={upright} x="10" y="14">
        D
      </text>
    </>
  ),
}

/** An earth: the protective one in its ring. */
export function EarthView({ earth }: { readonly earth: Earth }) {
  return (
    <>
      <circle class={earth === 'protective' ? 'filled' : 'cover'} r={RING} />
      <path class="drawn" d={`M0-${RING}V-2M-8-2H8M-5 2H5M-2 6H2`} />
    </>
  )
}
