import type { ComponentChildren } from 'preact'
import { say } from '../../base/words'
import { dotMark, earthMark, shieldCover, shieldMark, sourceMark } from './marks'

/** How long a sample is. */
const LENGTH = 56
const MIDDLE = 12

/** What each kind of line and mark of the picture is. */
export function MapKey() {
  const marked = (ends: 'one' | 'transformer' | 'optical' | 'radio') => (
    <>
      <Sample look="line" />
      <path class="cover" d={shieldCover(ends, [LENGTH / 2, MIDDLE])} />
      <path class="drawn thin" d={shieldMark(ends, [LENGTH / 2, MIDDLE])} />
    </>
  )
  return (
    <details class="map-key">
      <summary>{say('stage-map-key')}</summary>
      <ul role="list">
        <Entry name="line">
          <Sample look="line" />
        </Entry>
        <Entry name="transformer">{marked('transformer')}</Entry>
        <Entry name="open">{marked('one')}</Entry>
        <Entry name="optical">{marked('optical')}</Entry>
        <Entry name="radio">{marked('radio')}</Entry>
        <Entry name="link">
          <Sample look="link" />
        </Entry>
        <Entry name="earth">
          <Sample look="earth" />
          <path class="dot-of-earth" d={dotMark([LENGTH - 6, MIDDLE], 3)} />
        </Entry>
        <Entry name="metalwork">
          <Sample look="metalwork" />
          <Sample look="inner" />
        </Entry>
        <Entry name="apart">
          <Sample look="line apart" />
        </Entry>
        <Entry name="flow">
          {[0, 1, 2, 3, 4].map(step => (
            <path key={step} class={`way line flow-${step}`} d={`M${2 + 11 * step} ${MIDDLE}h9`} />
          ))}
        </Entry>
        <Entry name="venue">
          <path
            class="drawn"
            d={earthMark([LENGTH / 2, MIDDLE - 2])}
            transform={`translate(${LENGTH / 8} 2) scale(0.75)`}
          />
        </Entry>
        <Entry name="difference">
          <Sample look="line" />
          <path class="filled" d={sourceMark([LENGTH / 2, MIDDLE])} />
        </Entry>
        <Entry name="lit">
          <g class="lit">
            <path class="around" d={`M2 ${MIDDLE}H${LENGTH - 2}`} />
          </g>
        </Entry>
      </ul>
    </details>
  )
}

function Entry({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <li>
      <svg class="diagram ground" width={LENGTH} height={2 * MIDDLE} aria-hidden="true">
        {children}
      </svg>
      {say(`stage-map-key-${name}`)}
    </li>
  )
}

function Sample({ look }: { readonly look: string }) {
  return <path class={`way ${look}`} d={`M2 ${MIDDLE}H${LENGTH - 2}`} />
}
