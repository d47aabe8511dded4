import type { ReactNode } from 'react'
import type { Place } from '../../api/place.ts'
import type { PlacementCheck } from '../../core/placement/check.ts'
import { useUnits } from '../shop.tsx'
import { rulerText } from '../tests/lengths.ts'
import { PLACE_WORDS } from './placeWords.ts'
import { shortText } from './shortText.ts'

const LEAST_OFF_MM = 0.5

/** Each rule and each wish with how it stands. */
export function Rules({
  check,
  light,
  films,
}: Readonly<{
  check: PlacementCheck
  light: Readonly<{ least: number; most: number }> | null
  films: Place['films']
}>): ReactNode {
  const units = useUnits()
  const { xMm, yMm } = check.offCentreMm
  const off = [
    Math.abs(xMm) < LEAST_OFF_MM
      ? ''
      : `${rulerText(Math.abs(xMm), units)} ${PLACE_WORDS.ways[xMm < 0 ? 'left' : 'right']}`,
    Math.abs(yMm) < LEAST_OFF_MM
      ? ''
      : `${rulerText(Math.abs(yMm), units)} ${PLACE_WORDS.ways[yMm < 0 ? 'away' : 'toward']}`,
  ].filter((part) => part !== '')
  return (
    <dl className="place-rules">
      {check.rules.map(({ rule, leastMm, shortMm, films: about }) => (
        <div key={rule} className={shortMm > 1e-6 ? 'place-rule-broken' : undefined}>
          <dt>
            {PLACE_WORDS.rules[rule]}
            {films.length > 1 && shortMm > 1e-6 && (
              <span className="small">
                {` (${about.map((at) => films[at]?.layer ?? films[at]?.name ?? '').join(', ')})`}
              </span>
            )}
          </dt>
          <dd>
            {leastMm < 0 ? PLACE_WORDS.into : rulerText(leastMm, units)}
            {shortMm > 1e-6 && `, ${PLACE_WORDS.short(shortText(shortMm, units))}`}
          </dd>
        </div>
      ))}
      <div>
        <dt>{PLACE_WORDS.centre}</dt>
        <dd>{off.length === 0 ? PLACE_WORDS.inMiddle : off.join(', ')}</dd>
      </div>
      {light !== null && (
        <div>
          <dt>{PLACE_WORDS.light}</dt>
          <dd>
            {PLACE_WORDS.lightShare(
              String(Math.round(100 * light.least)),
              String(Math.round(100 * light.most)),
            )}
          </dd>
        </div>
      )}
      <div>
        <dt>{PLACE_WORDS.reading}</dt>
        <dd>{PLACE_WORDS.rightReading}</dd>
      </div>
    </dl>
  )
}
