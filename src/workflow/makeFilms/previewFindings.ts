import type { Weave } from '../../core/fabric/grades.ts'
import { type HoldableTones, holdableTones } from '../../core/fabric/holdableTones.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { type ToneBand, toneBand } from '../../raster/films/toneBand.ts'
import type { PreviewPlates } from './previewPlates.ts'

/** Tones of a plate that its fabric cannot hold. */
export type PreviewFinding = ToneBand &
  Readonly<{
    /** The plate's place in the order of printing, from 0. */
    plate: number
    /** `fills`: dots too small to open; `falls`: islands too small to hang on. */
    kind: 'fills' | 'falls'
  }>

/** Less than this of the sheet is dust. */
const LEAST_SHARE = 0.0005

/**
 * Where a plan's tones are beyond what the fabric holds, most of the sheet first; nothing for a plan
 * without dots.
 */
export function previewFindings(
  { plates, widthPx, heightPx }: PreviewPlates,
  { plan, fabric }: Readonly<{ plan: FilmPlan; fabric: Weave }>,
): Readonly<{ holds: HoldableTones | null; findings: readonly PreviewFinding[] }> {
  if (plan.halftone === null || plan.mode === 'line') return { holds: null, findings: [] }
  const holds = holdableTones(plan.halftone, fabric)
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
