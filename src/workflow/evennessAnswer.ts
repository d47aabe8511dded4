import { USUAL_WEDGE } from '../core/calibration/wedge.ts'
import { evennessFromWedges } from '../core/light/evennessFromWedges.ts'
import { evennessOnMap } from '../core/light/evennessMap.ts'
import { density, mm } from '../core/units/quantity.ts'
import type { CountsIn } from './lightRecords.ts'

/** Wedges that lay at several places of a glass, and what is often set there. */
export type EvennessTest = Readonly<{
  glass: Readonly<{ widthMm: number; heightMm: number }>
  wedge?: Readonly<{ steps: number; firstDensity: number; increment: number }> | undefined
  /** From the front left corner. */
  places: readonly Readonly<{
    xMm: number
    yMm: number
    lastSolidStep: number
    firstClearStep?: number | undefined
  }>[]
  /** A dose that the shop often sets, as on the counter. */
  usualCount?: number | undefined
  countsIn: CountsIn
}>

export type EvennessAnswer = Readonly<{
  places: readonly Readonly<{ xMm: number; yMm: number; share: number }>[]
  /** Rows from the front, columns from the left. */
  grid: Readonly<{ columns: number; rows: number; shares: readonly number[]; sdShare: number }>
  sentences: readonly string[]
}>

/** A fall-off that people ask about. */
const TENTH = 0.1
const PLANE =
  'It is a tilted plane: it tells which side is darker, not whether the middle is brighter. Nine places in three rows tell that.'
/** Cells along the longer side of the glass. */
const CELLS = 12
/** A place is told of where it lacks more than twice what the map is unsure by, and this. */
const LEAST_SHARE = 0.05

/** What is said before anybody has laid wedges on the glass. */
export function evennessUntested(): readonly string[] {
  return [
    'Nobody has measured this glass: a dose is taken to be the same all over it.',
    'Lay nine wedges of 0.05 on one screen, in the middle, at the edges and near the corners, and expose them at once.',
  ]
}

/**
 * How even the light is, against the middle of the glass, and what to set where it is not.
 *
 * @throws Failure 'wrong input' when the places do not span the glass
 * @source wedge-noise, least-squares
 */
export function evennessAnswer({
  glass,
  wedge = USUAL_WEDGE,
  places,
  usualCount,
  countsIn,
}: EvennessTest): EvennessAnswer {
  const { steps, firstDensity, increment } = wedge
  const read = evennessFromWedges(
    places.map(({ xMm, yMm, ...rest }) => ({ ...rest, xMm: mm(xMm), yMm: mm(yMm) })),
    { wedge: { steps, firstDensity: density(firstDensity), increment: density(increment) } },
  )
  const at = (xMm: number, yMm: number): number =>
    evennessOnMap(read.map, { xMm: mm(xMm), yMm: mm(yMm) }).value
  const middle = at(glass.widthMm / 2, glass.heightMm / 2)
  const cellMm = Math.max(glass.widthMm, glass.heightMm) / CELLS
  const columns = Math.max(1, Math.round(glass.widthMm / cellMm))
  const rows = Math.max(1, Math.round(glass.heightMm / cellMm))
  const shares = Array.from({ length: columns * rows }, (_, cell) => {
    const x = (((cell % columns) + 0.5) / columns) * glass.widthMm
    const y = ((Math.floor(cell / columns) + 0.5) / rows) * glass.heightMm
    return at(x, y) / middle
  })
  const sdShare = Math.LN10 * read.mapSd
  return {
    places: places.map(({ xMm, yMm }, index) => ({
      xMm,
      yMm,
      share: (read.shares[index] ?? 1) / middle,
    })),
    grid: { columns, rows, shares, sdShare },
    sentences: [
      ...aboutLeast({ shares, columns, rows, sdShare }, { usualCount, countsIn }),
      ...(read.map.surface === 'plane' ? [PLANE] : []),
      aboutDoubt({ increment, readings: places.length, sdShare }, Math.LN10 * read.readingSd),
      ...(read.map.residualSd !== null && read.map.residualSd > 2 * read.readingSd
        ? [
            'One place does not fit with the others: look for a dead tube, dirt on the glass, or read it again.',
          ]
        : []),
    ],
  }
}

/** What so many wedges can tell: twice the sd of their map, and what a tenth would take. */
function aboutDoubt(
  { increment, readings, sdShare }: Readonly<Record<'increment' | 'readings' | 'sdShare', number>>,
  readingShare: number,
): string {
  const one = `A wedge in steps of ${increment} tells the light at one place to about ${percent(readingShare)}`
  const least = 2 * sdShare
  const times = Math.ceil((least / TENTH) ** 2)
  const more = times > 1 ? `: a tenth would take them laid ${times} times over` : ''
  return `${one}, and ${readings} of them tell places apart from about ${percent(least)} on${more}.`
}

function aboutLeast(
  { shares, columns, rows, sdShare }: EvennessAnswer['grid'],
  { usualCount, countsIn }: Pick<EvennessTest, 'usualCount' | 'countsIn'>,
): readonly string[] {
  const least = Math.min(...shares)
  const cell = shares.indexOf(least)
  if (1 - least < Math.max(LEAST_SHARE, 2 * sdShare)) {
    return [
      `No place differs from the middle by more than these wedges can tell: ${percent(2 * sdShare)}.`,
    ]
  }
  const where = placeWords(
    (cell % columns) / (columns - 1 || 1),
    Math.floor(cell / columns) / (rows - 1 || 1),
  )
  const set =
    usualCount === undefined
      ? ''
      : `: give ${Math.round(usualCount / least)} ${countsIn} there, not ${Math.round(usualCount)}`
  return [`The ${where} gets ${percent(1 - least)} less light than the middle${set}.`]
}

/** In words of somebody who stands before the glass; shares from the left and from the front. */
function placeWords(across: number, deep: number): string {
  const side = across < 1 / 3 ? 'left' : across > 2 / 3 ? 'right' : ''
  const depth = deep < 1 / 3 ? 'front' : deep > 2 / 3 ? 'back' : ''
  if (side === '' && depth === '') return 'middle'
  if (side === '' || depth === '') return `${depth}${side} edge`
  return `${depth} ${side} corner`
}

function percent(part: number): string {
  return `${Math.round(100 * part)} %`
}
