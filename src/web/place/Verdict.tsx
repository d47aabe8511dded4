import type { ReactNode } from 'react'
import type { Place } from '../../api/place.ts'
import type { PlacementCheck } from '../../core/placement/check.ts'
import { useUnits } from '../shop.tsx'
import { PLACE_WORDS } from './placeWords.ts'
import { shortText } from './shortText.ts'

/** Whether it fits; where it cannot, which rule by how much, and the frame that would do. */
export function Verdict({
  check,
  best,
  isBest,
  isMarked,
}: Readonly<{
  check: PlacementCheck
  best: NonNullable<Place['best']>
  isBest: boolean
  /** Something lies on the glass that is kept clear. */
  isMarked: boolean
}>): ReactNode {
  const units = useUnits()
  const { insideWidthMm, insideHeightMm } = best.smallestFrame
  const isNone = best.verdict === 'does not fit'
  return (
    <div className="place-verdict" aria-live="polite">
      {isNone && (
        <p>
          <strong>
            {PLACE_WORDS.noFit(
              PLACE_WORDS.brief[best.worst.rule],
              shortText(best.worst.shortMm, units),
            )}
          </strong>{' '}
          {PLACE_WORDS.smallest(
            shortText(insideWidthMm, units),
            shortText(insideHeightMm, units),
            isMarked,
          )}
        </p>
      )}
      {check.verdict === 'fits' && <p>{PLACE_WORDS.fits}</p>}
      {check.verdict !== 'fits' && !(isNone && isBest) && (
        <p>
          <strong>{PLACE_WORDS.fitsBadly}</strong>{' '}
          {`${PLACE_WORDS.brief[check.worst.rule]} ${PLACE_WORDS.short(shortText(check.worst.shortMm, units))}.`}
        </p>
      )}
      {isNone && !best.proved && <p className="small">{PLACE_WORDS.notProved}</p>}
    </div>
  )
}
