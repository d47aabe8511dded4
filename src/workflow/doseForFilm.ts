import type { DosePlan } from '../core/emulsion/dosePlan.ts'
import { fogLimitLu } from '../core/emulsion/fogLimit.ts'
import { planDose } from '../core/emulsion/latitude.ts'
import { Failure } from '../core/failure.ts'
import { type Spread, sourceReachUm } from '../core/forecast/spread.ts'
import { density } from '../core/units/quantity.ts'
import type { Film } from '../raster/film.ts'
import { leakOfCode } from '../raster/leakCode.ts'
import { type LeakBand, leakMap } from '../raster/leakMap.ts'
import { type MarkLimits, markRowFinder } from '../raster/markRows.ts'
import type { Mark } from '../raster/marks.ts'
import { markFinder, type WeakMarks } from '../raster/weakMarks.ts'
import { expectFolding, setupDoses, spreadOf } from './exposurePhysics.ts'
import type { Setup } from './setup.ts'

/** A mark at the place where a tenth of its axis is weaker. */
export type MarkPlace = Readonly<{
  /** From the film's top left corner, as it lies in the file. */
  xMm: number
  yMm: number
  /** Of the film there, above base. */
  density: number
  /** With the light that spreads in from beside the mark. */
  effectiveDensity: number
  widthUm: number
}>

export type DoseForFilm = DosePlan &
  Readonly<{
    weakestMark: MarkPlace
    /** Marks at least 1 mm long, and shorter ones. */
    markCount: Readonly<{ long: number; short: number }>
    /** Up to which dose a share of the length of all marks stays open, from most of it to half. */
    openLength: readonly Readonly<{ share: number; upToLu: number }>[]
  }>

export type DoseQuestion = Readonly<{
  /** Marks are what is denser than this. */
  marksAbove: number
}>

/** Marks shorter than this are dots and specks, and do not set the dose. */
const LONG_MARK_MM = 1
/** Shares of the marks' length whose own limits are told. */
const OPEN_SHARES = [0.99, 0.95, 0.9, 0.75, 0.5] as const
/** Weak marks kept to be shown. */
const SHOWN = 12

/**
 * The dose for a film: hold and full dose under clear film, the fog limit of its weakest mark, and
 * what to set between them.
 *
 * @throws Failure where nothing on the film is denser than marksAbove
 * @source weakest-mark, latitude-practice
 */
export async function doseForFilm(
  film: Film,
  setup: Setup,
  question: DoseQuestion,
  onRows: (rowsDone: number) => void = () => undefined,
): Promise<DoseForFilm> {
  const spread = spreadOf(setup)
  expectFolding(spread, film)
  const finder = findMarks(film, spread, question)
  for await (const band of leakMap(film, spread)) {
    finder.push(band)
    onRows(band.top + band.rows)
  }
  const found = finder.finish()
  const weakest = found.long[0] ?? found.shortTenth
  if (weakest === null || weakest === undefined) throw nothingDenser(question)
  const weakestMark = placeOf(weakest, film)
  const doses = setupDoses(setup)
  const highLu = fogLimitLu(doses.gelDoseLu, density(weakestMark.effectiveDensity))
  const plan = planDose({ highLu, doses })
  const openLength = OPEN_SHARES.map((share) => ({
    share,
    upToLu: doses.gelDoseLu / leakOfCode(Math.max(1, codeAbove(found.axisCodes, 1 - share))),
  }))
  return {
    ...plan,
    reasons: [...plan.reasons, ...aboutMarks(found, weakestMark), ...aboutRest(openLength, highLu)],
    weakestMark,
    openLength,
    markCount: { long: found.longCount, short: found.shortCount },
  }
}

/** Finds the marks of a film while the bands of its leak map pass. */
export function findMarks(
  film: Pick<Film, 'widthPx' | 'pixelUm'>,
  spread: Spread,
  question: DoseQuestion,
): Readonly<{ push: (band: LeakBand) => void; finish: () => WeakMarks }> {
  const finder = markFinder(whichMarks(film))
  const rows = markRowFinder(film.widthPx, markLimits(film, spread, question), finder.push)
  return {
    push: rows.push,
    finish: () => {
      rows.finish()
      return finder.finish()
    },
  }
}

/** What counts as a mark on a film, and how far its edges matter under this spread. */
export function markLimits(
  { pixelUm }: Pick<Film, 'pixelUm'>,
  spread: Spread,
  { marksAbove }: DoseQuestion,
): MarkLimits {
  // past 14 halo lengths and the source's own reach no light comes in from an edge
  const edgeUm = Math.max(1000, 14 * spread.halo.lengthUm + sourceReachUm(spread.source))
  return {
    belowTransmission: 10 ** -marksAbove,
    limitPx: Math.min(800, Math.max(16, Math.ceil(edgeUm / pixelUm))),
  }
}

/** Which marks are long enough to set a dose, and how many of the weakest are kept. */
export function whichMarks({ pixelUm }: Pick<Film, 'pixelUm'>): Readonly<{
  longPx: number
  keep: number
}> {
  return { longPx: (LONG_MARK_MM * 1000) / pixelUm, keep: SHOWN }
}

export function placeOf(
  { weak }: Pick<Mark, 'weak'>,
  { pixelUm }: Pick<Film, 'pixelUm'>,
): MarkPlace {
  return {
    xMm: ((weak.x + 0.5) * pixelUm) / 1000,
    yMm: ((weak.y + 0.5) * pixelUm) / 1000,
    density: densityOfCode(weak.filmCode),
    effectiveDensity: densityOfCode(weak.leakCode),
    widthUm: weak.widthPx * pixelUm,
  }
}

function densityOfCode(code: number): number {
  return Math.log10(1 / leakOfCode(Math.max(1, code)))
}

function aboutMarks({ longCount, shortCount }: WeakMarks, weakest: MarkPlace): readonly string[] {
  const place = `${weakest.xMm.toFixed(1)} mm from the left and ${weakest.yMm.toFixed(1)} mm from the top`
  const sight =
    `The weakest mark lies ${place}: density ${weakest.density.toFixed(2)}, ` +
    `${weakest.effectiveDensity.toFixed(2)} with the light from beside it, ` +
    `about ${(weakest.widthUm / 1000).toFixed(2)} mm wide.`
  if (longCount > 0) return [sight]
  const dots = shortCount === 1 ? 'mark' : `${shortCount} marks`
  return [
    sight,
    `No mark is ${LONG_MARK_MM} mm long, so the ${dots} shorter than that set the dose: nine in ten are at least as dense.`,
  ]
}

/** The code that a share of all axis points leaks more than. */
function codeAbove(axisCodes: Float64Array, share: number): number {
  const total = axisCodes.reduce((sum, count) => sum + count, 0)
  let above = 0
  for (let code = 65535; code > 0; code -= 1) {
    above += axisCodes[code] ?? 0
    if (above > share * total) return code
  }
  return 0
}

/** Where the palest mark is far paler than the rest, what letting it go would buy. */
function aboutRest(openLength: DoseForFilm['openLength'], highLu: number): readonly string[] {
  const most = openLength.find(({ share }) => share === 0.9)
  if (most === undefined || most.upToLu < 1.4 * highLu) return []
  return [
    `That is the palest mark: nine tenths of the length of all marks stays open up to ${most.upToLu.toFixed(0)} lu. ` +
      'If the palest may stay shut, ask again and count only denser marks.',
  ]
}

function nothingDenser({ marksAbove }: DoseQuestion): Failure {
  const message =
    `Nothing on this film is denser than ${marksAbove}, so there is no mark to open; ` +
    'count paler marks too, or check that dark and clear are not swapped.'
  return new Failure('wrong input', message, { field: 'marksAbove' })
}
