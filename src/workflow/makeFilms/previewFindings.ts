import type { Weave } from '../../core/fabric/grades.ts'
import { type HoldableTones, holdableTones } from '../../core/fabric/holdableTones.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { END_SHARE } from '../../core/separation/spotTable.ts'
import { heavyInk } from '../../raster/films/heavyInk.ts'
import { type ToneBand, toneBand } from '../../raster/films/toneBand.ts'
import type { PreviewPlates } from './previewPlates.ts'

/** What of a plan will not come out, before films are made of it. */
export type PreviewFinding = ToneBand &
  (
    | Readonly<{
        /** The plate's place in the order of printing, from 0. */
        plate: number
        /** Tones that its fabric cannot hold. `fills`: dots too small to open; `falls`: islands too small to hang on. */
        kind: 'fills' | 'falls'
      }>
    | Readonly<{
        /** The last of those that lie there. */
        plate: number
        /** More ink at one place than dries before the next screen. */
        kind: 'heavy'
        /** The most at one place, and the limit, in solids. */
        most: number
        limit: number
      }>
  )

/** Less than this of the sheet is dust. */
const LEAST_SHARE = 0.0005

/**
 * Where more ink lies together than a limit; nothing where the plan keeps to it. White under all inks
 * is dry before they come and does not count.
 *
 * @param limit of the shop, in solids: the plan's own comes first
 */
export function heavyFindings(
  { plates, widthPx, heightPx }: PreviewPlates,
  { plan, limit: ofShop }: Readonly<{ plan: FilmPlan; limit: number }>,
): readonly PreviewFinding[] {
  const limit = plan.limits?.coverage ?? ofShop
  const inks = plates.filter(({ isUnderbase }) => !isUnderbase).map(({ tones }) => tones)
  if (inks.length <= limit) return []
  // chosen inks are parted within what dries, but for shares that are as good as solid
  const room = plan.mode === 'spot' ? END_SHARE * inks.length : 0
  const { most, above } = heavyInk(inks, { widthPx, heightPx, limit: limit + room })
  if (above === null || above.share < LEAST_SHARE) return []
  return [{ ...above, plate: plates.length - 1, kind: 'heavy', most, limit }]
}

/** Tones that a fabric holds; null where there are no dots or no fabric. */
export function heldTones(
  { halftone, mode }: Pick<FilmPlan, 'halftone' | 'mode'>,
  fabric: Weave | null,
): HoldableTones | null {
  if (halftone === null || mode === 'line' || fabric === null) return null
  return holdableTones(halftone, fabric)
}

/**
 * Where a plan's tones are beyond what the fabric holds, most of the sheet first; nothing for a plan
 * without dots.
 */
export function previewFindings(
  { plates, widthPx, heightPx }: PreviewPlates,
  { plan, fabric }: Readonly<{ plan: FilmPlan; fabric: Weave }>,
): Readonly<{ holds: HoldableTones | null; findings: readonly PreviewFinding[] }> {
  const holds = heldTones(plan, fabric)
  if (holds === null) return { holds, findings: [] }
  const size = { widthPx, heightPx }
  const below = Math.ceil(255 * holds.least - 0.5) - 1
  const above = Math.floor(255 * holds.most + 0.5) + 1
  const first = plates[0]?.isUnderbase === true ? 1 : 0
  const findings = plates.flatMap(({ tones }, plate): readonly PreviewFinding[] => {
    // scattered dots are as wide as the fabric's own, whatever the tone
    const range = plan.inks[plate - first]?.tones
    const isScattered = (end: boolean): boolean => range?.scatters === true && end
    const pale =
      below < 1 || isScattered((range?.least ?? 0) >= holds.least)
        ? null
        : toneBand(tones, { ...size, from: 1, to: Math.min(254, below) })
    const full =
      above > 254 || isScattered((range?.most ?? 1) <= holds.most)
        ? null
        : toneBand(tones, { ...size, from: Math.max(1, above), to: 254 })
    return [
      ...(pale === null ? [] : [{ ...pale, plate, kind: 'fills' as const }]),
      ...(full === null ? [] : [{ ...full, plate, kind: 'falls' as const }]),
    ]
  })
  return {
    holds,
    findings: findings
      .filter(({ share }) => share >= LEAST_SHARE)
      .toSorted((one, other) => other.share - one.share),
  }
}
