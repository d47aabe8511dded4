import type { Circumstances, Marks } from '../../core/calibration/belief/evidence.ts'
import type { Grading } from '../../core/calibration/belief/grades.ts'
import type { Kept } from '../../core/calibration/belief/replay.ts'
import { density } from '../../core/units/quantity.ts'
import type { Fabric } from '../../store/fabrics.ts'
import type { Medium } from '../../store/media.ts'
import type { Band, Reading, WholeReading } from '../../store/readings.ts'
import type { LightBase } from '../../workflow/lightRecords.ts'

const DAY_MS = 24 * 3600_000

/** Whole days since 1970, as the belief counts them. */
export function dayOf(at: Date): number {
  return Math.floor(at.getTime() / DAY_MS)
}

type Known = Readonly<{
  media: readonly Medium[]
  bases: readonly LightBase[]
  fabrics: ReadonlyMap<string, Fabric>
}>

/** The shop's readings as what teaches the belief; what was struck out is kept and teaches nothing. */
export function keptEvidence(readings: readonly WholeReading[], known: Known): readonly Kept[] {
  return readings.flatMap((whole) => {
    const evidence = evidenceOf(whole, known)
    return evidence === null ? [] : [evidence]
  })
}

function evidenceOf({ reading, bands }: WholeReading, known: Known): Kept | null {
  const common = { ...circumstancesOf(reading, known), struckOut: reading.struckAt !== null }
  if (reading.kind === 'wedge') {
    const { doseLu, firstDensity, increment, steps, lastSolidStep, firstClearStep } = reading
    if (doseLu === null || lastSolidStep === null || steps === null) return null
    const wedge = {
      steps,
      firstDensity: firstDensity ?? density(0.05),
      increment: increment ?? density(0.15),
    }
    const clear = firstClearStep === null ? {} : { firstClearStep }
    return { ...common, kind: 'wedge', doseLu, wedge, lastSolidStep, ...clear }
  }
  const medium = known.media.find(({ id }) => id === reading.mediumId)
  if (medium === undefined) return null
  const marks: Marks = { medium: medium.name }
  if (reading.kind === 'strip') {
    const graded = bands.map((band) => ({ doseLu: band.doseLu, ...gradingOf(band) }))
    return { ...common, kind: 'strip', marks, bands: graded }
  }
  const [band] = bands
  if (band === undefined) return null
  const grading = gradingOf(band)
  const graded = 'grade' in grading ? grading : { ticks: grading }
  return { ...common, kind: 'outcome', marks, doseLu: band.doseLu, ...graded }
}

function gradingOf({ grade, ground, marks }: Band): Grading {
  if (grade !== null) return { grade }
  if (ground === 'soft' || ground === 'sound') return { ground, marks: marks ?? 'open' } as const
  return { ground: 'washed off' } as const
}

function circumstancesOf(reading: Reading, { bases, fabrics }: Known): Circumstances {
  const base = bases.find(({ id }) => id === reading.baseId)
  const fabric = fabrics.get(reading.fabricId ?? '')
  return {
    unit: reading.unitId,
    emulsion: reading.batchId ?? undefined,
    fabric: fabric?.id,
    dyed: fabric?.dyed,
    recipe: reading.recipe ?? undefined,
    film: reading.filmId ?? undefined,
    baseDensity: base?.baseDensity,
    day: dayOf(reading.takenAt),
    lampHours: reading.lampHours ?? undefined,
  }
}
