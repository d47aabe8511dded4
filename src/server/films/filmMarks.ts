import type { FilmByPhoto } from '../../api/films.ts'
import { type Density, density } from '../../core/units/quantity.ts'
import type { Film } from '../../store/films.ts'
import type { FilmFindings } from '../../workflow/filmForecastFindings.ts'
import type { ReadMarks } from '../../workflow/lightRecords.ts'
import type { FilmWorkResult } from '../jobs/work.ts'

/** What is kept of a film's reading, beside its tiles. */
export type FilmMarks = Pick<FilmWorkResult, 'warnings' | 'findings' | 'withoutFaint'>

/** What was found on a film when it was read; null before. */
export function marksOf({ marks }: Pick<Film, 'marks'>): FilmMarks | null {
  return marks === null ? null : (marks as unknown as FilmMarks)
}

/** Of a film read from a photo how far its densities hold; null for any other. */
export function byPhotoOf({
  byPhoto,
}: Pick<Film, 'byPhoto'>): Readonly<{ densitySd: Density }> | null {
  if (byPhoto === null) return null
  const { densitySd } = byPhoto as unknown as FilmByPhoto
  return { densitySd: density(densitySd) }
}

/** The findings that count: without the faint lines where somebody said that they stay shut. */
export function findingsThatCount(
  { findings, withoutFaint }: Pick<FilmWorkResult, 'findings' | 'withoutFaint'>,
  { faintPrints }: Pick<Film, 'faintPrints'>,
): FilmFindings {
  return faintPrints === false && withoutFaint !== null ? withoutFaint : findings
}

/**
 * The marks for a dose; null where nothing on the film is dense enough to be one. The weakest is
 * the first of the findings, which stand for whole passages: a single hair counts only where there
 * is nothing else.
 */
export function readMarks({
  findings,
  weakestMark,
  alongLeakShares,
}: FilmFindings): ReadMarks | null {
  const weakest = findings[0] ?? weakestMark
  if (weakest === null) return null
  const { xMm, yMm } = weakest
  return {
    weakest: {
      xMm,
      yMm,
      density: density(weakest.density),
      effectiveDensity: density(weakest.effectiveDensity),
    },
    along: alongLeakShares.map((leak) => -Math.log10(leak)),
  }
}
