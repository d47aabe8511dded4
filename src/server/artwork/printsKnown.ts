import type { InkLimitFacts, PrintsKnown, ToneCurveFacts } from '../../api/artwork.ts'
import { Failure } from '../../core/failure.ts'
import { isToneCurve } from '../../core/halftone/toneCurve.ts'
import { COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import type { Database } from '../../store/database/database.ts'
import type { At } from '../../store/database/record.ts'
import { fabricOf } from '../../store/fabrics.ts'
import { inkLimitOf, keepInkLimit } from '../../store/inkLimit.ts'
import { addToneCurve, toneCurves } from '../../store/toneCurves.ts'
import { type ShopTones, withShopTones } from '../../workflow/makeFilms/shopTones.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import type { Told } from '../http/route.ts'

const MOST_CURVES = 500

/** What the shop knows of its prints: measured tints, newest first, and how much ink dries. */
export async function printsKnown(database: Database): Promise<Told<PrintsKnown>> {
  return {
    kind: 'prints known',
    toneCurves: await shopTones(database),
    inkLimit: (await inkLimitOf(database)) ?? COVERAGE_LIMIT,
  }
}

async function shopTones(database: Database): Promise<readonly ShopTones[]> {
  const all = await toneCurves(database, { limit: MOST_CURVES })
  return all.map(({ id, ink, fabricId, dots, rulingPerCm, tints, createdAt }) => {
    return { id, ink, fabric: fabricId, dots, rulingPerCm, tints, at: createdAt.toISOString() }
  })
}

/** A plan as films are made by it: with what the shop measured by now. */
export async function planWithTones(
  database: Database,
  plan: PlanFile,
  fabric: string | null,
): Promise<PlanFile> {
  return withShopTones(plan, { known: await shopTones(database), fabric })
}

/** Keeps tints that were measured. @throws Failure for a fabric that is not here, or tints that do not rise */
export async function keepTones(
  database: Database,
  { fabric, tints, ...facts }: ToneCurveFacts,
  at: At,
): Promise<Told<PrintsKnown>> {
  await fabricOf(database, fabric)
  if (!isToneCurve(tints)) {
    const message =
      'Measured tints must rise: each prints fuller than the one before and less than solid. Measure them again.'
    throw new Failure('wrong input', message, { field: 'tints' })
  }
  await addToneCurve(database, { ...facts, fabricId: fabric, tints }, at)
  return printsKnown(database)
}

/** Keeps how much ink dries in this shop. */
export async function keepLimit(
  database: Database,
  { coverage }: InkLimitFacts,
  at: At,
): Promise<Told<PrintsKnown>> {
  await keepInkLimit(database, coverage, at)
  return printsKnown(database)
}
