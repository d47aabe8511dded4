import type { ReactNode } from 'react'
import { SecondAct } from '../signs/Button.tsx'
import { PRINTS_WORDS } from './printsWords.ts'
import { CARD_MM, PER_MM, type ScreenScale } from './screenScale.ts'

const { proof: says } = PRINTS_WORDS

/** How large a mm is on this screen: as the device states it, or by a card held against a frame. */
export function MeasureScreen({
  scale,
  trial,
  onTrial,
}: Readonly<{
  scale: ScreenScale
  /** CSS pixels in a mm, while somebody measures. */
  trial: number | null
  onTrial: (perMm: number | null) => void
}>): ReactNode {
  if (trial === null) {
    return (
      <p className="small">
        {scale.isMeasured ? says.measured : says.stated}{' '}
        <SecondAct onPress={() => onTrial(scale.perMm)}>{says.measure}</SecondAct>
      </p>
    )
  }
  return (
    <div className="measure-screen">
      <p>{says.card}</p>
      <svg
        className="card-frame"
        viewBox={`0 0 ${CARD_MM.width} ${CARD_MM.height}`}
        role="img"
        aria-label={says.cardFrame}
        ref={(frame) => frame?.style.setProperty('--wide', `${CARD_MM.width * trial}px`)}
      >
        <rect width={CARD_MM.width} height={CARD_MM.height} rx="3.18" />
      </svg>
      <input
        type="range"
        min={PER_MM.low * 2}
        max={PER_MM.high / 5}
        step={0.01}
        value={trial}
        aria-label={says.cardSlider}
        aria-valuetext={says.cardIs((CARD_MM.width * trial).toFixed(0))}
        onChange={({ target }) => onTrial(Number(target.value))}
      />
      <p className="films-acts">
        <SecondAct
          onPress={() => {
            scale.keep(trial)
            onTrial(null)
          }}
        >
          {says.fits}
        </SecondAct>
        <SecondAct
          onPress={() => {
            scale.keep(null)
            onTrial(null)
          }}
        >
          {says.asStated}
        </SecondAct>
      </p>
    </div>
  )
}
