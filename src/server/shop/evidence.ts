import type { Circumstances, Marks } from '../../core/calibration/belief/evidence.ts'
import type { Grading } from '../../core/calibration/belief/grades.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import { FILM_TO_FILM_SD } from '../../core/film/media.ts'
import { density, lu } from '../../core/units/quantity.ts'
import type { Coating } from '../../store/coatings.ts'
import type { Fabric } from '../../store/fabrics.ts'
import type { Medium } from '../../store/media.ts'
import type { Band, Reading, WholeReading } from '../../store/readings.ts'
import type { Lamp } from '../../store/units.ts'
import type { LightBase } from '../../workflow/lightRecords.ts'
import { coatOf } from '../../workflow/lightSetup.ts'
import { dayOf } from './days.ts'
import { coatsOf, lightFabric } from './lightThings.ts'

/** What turns readings into evidence: as long as it is the same, so is the evidence. */
export type Known = Readonly<{
  media: readonly Medium[]
  bases: readonly LightBase[]
  fabrics: ReadonlyMap<string, Fabric>
  /** Every coating that each screen ever had, oldest first. */
  coatings: ReadonlyMap<string, readonly Coating[]>
  /** Share of the light that a unit's counter counts at a place on its glass. */
  lightAt: (unitId: string, place: Readonly<{ xMm: number; yMm: number }>) => number
  /** Another text where that answers otherwise. */
  lightKey: string
  /** All lamps there ever were, oldest first. */
  lamps: readonly Lamp[]
}>

/** A reading as what teaches; null for what names nothing that can be believed. */
export type Taught = Readonly<{ whole: WholeReading; evidence: Kept | null }>

/** A reading as what teaches the belief; what was struck out is kept and teaches nothing. */
export function evidenceOf({ reading, bands }: WholeReading, known: Known): Kept | null {
  const common = { ...circumstancesOf(reading, known), struckOut: reading.struckAt !== null }
  const { xMm, yMm, unitId } = reading
  const share = xMm === null || yMm === null ? 1 : known.lightAt(unitId, { xMm, yMm })
  if (reading.kind === 'wedge') {
    const { doseLu, firstDensity, increment, steps, lastSolidStep, firstClearStep } = reading
    if (doseLu === null || lastSolidStep === null || steps === null) return null
    const wedge = {
      steps,
      firstDensity: firstDensity ?? density(0.05),
      increment: increment ?? density(0.15),
    }
    const clear = firstClearStep === null ? {} : { firstClearStep }
    return { ...common, kind: 'wedge', doseLu: lu(share * doseLu), wedge, lastSolidStep, ...clear }
  }
  const marks = marksOf(reading, known)
  if (marks === null) return null
  if (reading.kind === 'strip') {
    const graded = bands.map((band) => ({ doseLu: lu(share * band.doseLu), ...gradingOf(band) }))
    return { ...common, kind: 'strip', marks, bands: graded }
  }
  const [band] = bands
  if (band === undefined) return null
  const grading = gradingOf(band)
  const told = 'grade' in grading ? grading : { ticks: grading }
  return { ...common, kind: 'outcome', marks, doseLu: lu(share * band.doseLu), ...told }
}

function marksOf(reading: Reading, { media }: Known): Marks | null {
  const medium = media.find(({ id }) => id === reading.mediumId)?.name
  if (reading.marksDensity !== null) {
    return {
      density: reading.marksDensity,
      densitySd: reading.marksDensitySd ?? FILM_TO_FILM_SD,
      medium,
    }
  }
  return medium === undefined ? null : { medium }
}

/** How a band came out, as a grade or as two ticks. */
export function gradingOf({ grade, ground, marks }: Band): Grading {
  if (grade !== null) return { grade }
  if (ground === 'soft' || ground === 'sound') return { ground, marks: marks ?? 'open' } as const
  return { ground: 'washed off' } as const
}

/** When the lamp that was in then took the place of another; undefined for a unit's first. */
function lampFittedFor({ unitId, takenAt }: Reading, lamps: readonly Lamp[]): number | undefined {
  const own = lamps.filter((lamp) => lamp.unitId === unitId).slice(1)
  const lamp = own.findLast(({ fittedAt }) => fittedAt <= takenAt)
  return lamp === undefined ? undefined : dayOf(lamp.fittedAt)
}

function circumstancesOf(
  reading: Reading,
  { bases, fabrics, coatings, lamps }: Known,
): Circumstances {
  const base = bases.find(({ id }) => id === reading.baseId)
  const fabric = fabrics.get(reading.fabricId ?? '')
  const coats = coatsOf(reading.recipe)
  const day = dayOf(reading.takenAt)
  const coating = coatings
    .get(reading.screenId ?? '')
    ?.findLast(({ coatedAt }) => dayOf(coatedAt) <= day)
  const coat =
    fabric === undefined
      ? undefined
      : coatOf({
          fabric: lightFabric(fabric),
          coating: { coats, overMeshUm: coating?.eomUm ?? null },
        })
  return {
    unit: reading.unitId,
    emulsion: reading.batchId ?? undefined,
    fabric: fabric?.id,
    dyed: fabric?.dyed,
    recipe: coats ?? undefined,
    screen: coating?.id,
    film: reading.filmId ?? undefined,
    baseDensity: base?.baseDensity,
    coat,
    day,
    lampHours: reading.lampHours ?? undefined,
    lampFitted: lampFittedFor(reading, lamps),
  }
}
