import { Failure } from '../failure.ts'
import { type PerCm, perCm, type Share, share, type Um, um } from '../units/quantity.ts'
import { expectIn, isIn, type Range, rangeWords } from '../units/range.ts'
import { GRADES, type Grade, type PublishedRow, type Weave } from './grades.ts'

/** From the coarsest glitter fabric to finer than any stencil is made on. */
export const THREADS_PER_CM: Range = {
  name: 'threadsPerCm',
  low: 4,
  high: 250,
  unit: 'threads per cm',
}
/** Thread diameter before weaving. */
export const THREAD: Range = { name: 'threadUm', low: 10, high: 1000, unit: 'um' }

/** What follows from count and thread, and what was published of the same grade. */
export type Fabric = Weave &
  Readonly<{
    kind: 'fabric'
    pitchUm: Um
    openingUm: Um
    openAreaShare: Share
    thicknessUm: Um
    thicknessBasis: 'published' | 'by formula'
    inkVolumeCm3PerM2: number
    finestLineUm: Um
    rulingPerCm: Readonly<{ coarse: PerCm; usual: PerCm; finest: PerCm }>
    published: PublishedRow | null
  }>

/**
 * Fabric thickness over thread diameter: the mean of the published rows (1.475 to 1.575).
 *
 * Two crossing threads would be 2; weaving flattens them where they cross.
 *
 * @source fabric-rows, fabric-measured
 */
export const THICKNESS_PER_THREAD: number = meanThicknessPerThread()

/**
 * Geometry of a plain square weave with n threads a cm of diameter d.
 *
 * Pitch p = 10000/n, opening w = p − d, open area a0 = (w/p)², theoretical ink volume
 * Vth = a0 · D (1 um over 1 m² is 1 cm³). The thickness D is the published one of the grade where
 * there is one, else the mean published D/d times d: `thicknessBasis` says which. Opening and area
 * are always reckoned with the n that was asked for, also where a published row means another.
 * The finest line is one pitch; rulings are n/5, n/3.75 and n/2.5.
 *
 * @param weave n = threadsPerCm, 4 … 250; d = threadUm, 10 … 1000 um, less than the pitch
 * @throws RangeError outside these ranges
 * @throws Failure 'wrong input' when the threads leave no opening
 * @source fabric-geometry, ink-volume, fabric-rows, fabric-measured, ruling-ratios, finest-line
 * @limits theory: finished and stretched cloth may open 2 to 8 um less; twill is another geometry
 */
export function fabricGeometry({ threadsPerCm, threadUm }: Weave): Fabric {
  expectIn(threadsPerCm, THREADS_PER_CM)
  expectIn(threadUm, THREAD)
  const pitchUm = um(10_000 / threadsPerCm)
  const openingUm = um(pitchUm - threadUm)
  if (openingUm <= 0) {
    throw new Failure(
      'wrong input',
      `${threadsPerCm} threads a cm stand ${Number(pitchUm.toFixed(1))} um apart, and threads of ` +
        `${threadUm} um leave no opening between them: check count and thread.`,
      { field: 'threadUm' },
    )
  }
  const openAreaShare = share((openingUm / pitchUm) ** 2)
  const published = publishedRowOf({ threadsPerCm, threadUm })
  const known = published?.thicknessUm ?? null
  const thicknessUm = known ?? um(THICKNESS_PER_THREAD * threadUm)
  return {
    kind: 'fabric',
    threadsPerCm,
    threadUm,
    pitchUm,
    openingUm,
    openAreaShare,
    thicknessUm,
    thicknessBasis: known === null ? 'by formula' : 'published',
    inkVolumeCm3PerM2: openAreaShare * thicknessUm,
    finestLineUm: pitchUm,
    rulingPerCm: {
      coarse: perCm(threadsPerCm / 5),
      usual: perCm(threadsPerCm / 3.75),
      finest: perCm(threadsPerCm / 2.5),
    },
    published,
  }
}

/**
 * Count and thread out of a name like `90-48`, in the table or not.
 *
 * @throws Failure 'wrong input' for a name of another form or a number out of its range
 * @source fabric-pairs
 */
export function weaveNamed(name: string): Weave {
  const [, count, thread] = /^\s*(\d+(?:\.\d+)?)\s*-\s*(\d+(?:\.\d+)?)\s*$/.exec(name) ?? []
  if (count === undefined || thread === undefined) {
    throw new Failure(
      'wrong input',
      'A fabric is named by threads per cm and thread diameter in um, like 90-48; ' +
        `"${name}" is not.`,
      { field: 'name' },
    )
  }
  const weave = { threadsPerCm: perCm(Number(count)), threadUm: um(Number(thread)) }
  for (const [value, range] of [
    [weave.threadsPerCm, THREADS_PER_CM],
    [weave.threadUm, THREAD],
  ] as const) {
    if (isIn(value, range)) continue
    throw new Failure(
      'wrong input',
      `In the fabric's name "${name}" the ${range.name} may be ${rangeWords(range)}, ` +
        `and ${value} is not: name it like 90-48.`,
      { field: range.name },
    )
  }
  return weave
}

/** The same cloth by its name's count or by the count its row was reckoned with. */
function publishedRowOf({ threadsPerCm, threadUm }: Weave): PublishedRow | null {
  const isCount = (count: number): boolean => Math.abs(count - threadsPerCm) < 0.005
  const isSame = (grade: Grade): boolean =>
    grade.threadUm === threadUm &&
    (isCount(grade.threadsPerCm) || isCount(grade.published?.threadsPerCm ?? Number.NaN))
  return GRADES.find(isSame)?.published ?? null
}

function meanThicknessPerThread(): number {
  const ratios = GRADES.flatMap(({ threadUm, published }) =>
    published?.thicknessUm ? [published.thicknessUm / threadUm] : [],
  )
  return ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length
}
