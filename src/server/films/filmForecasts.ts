import type { FilmForecast } from '../../api/films.ts'
import { type Film } from '../../store/films.ts'
import { forecastOrNull } from '../../store/forecasts.ts'
import type { FilmFindings } from '../../workflow/filmForecastFindings.ts'
import type { LightExposure } from '../../workflow/lightRecords.ts'
import { counterDoses, lightSetup } from '../../workflow/lightSetup.ts'
import type { Setup } from '../../workflow/setup.ts'
import type { Told } from '../http/route.ts'
import type { FilmWorkPicture, FilmWorkResult } from '../jobs/work.ts'
import { dayOf } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { forecastId, forecastKey } from './filmKey.ts'
import { findingsThatCount, marksOf } from './filmMarks.ts'

/** What is kept of a film under a setup; null when it is still to be computed. */
async function keptForecast(
  { store, now }: ShopService,
  { film, setup }: Readonly<{ film: Film; setup: Setup }>,
): Promise<FilmWorkResult | Picture | null> {
  const kept = await forecastOrNull(store.database, forecastKey(film.id, setup), { at: now() })
  return kept === null ? null : (kept.answer as unknown as FilmWorkResult | Picture)
}

/** The picture stands before the marks are looked through. */
type Picture = FilmWorkPicture & Readonly<{ findings: null; withoutFaint: null }>

/** The findings under this setup, or under the one that the film was read with; null before. */
export async function keptFindings(
  service: ShopService,
  of: Readonly<{ film: Film; setup: Setup }>,
): Promise<FilmFindings | null> {
  const kept = await keptForecast(service, of)
  const found = kept?.findings ? kept : marksOf(of.film)
  return found === null ? null : findingsThatCount(found, of.film)
}

/**
 * A film under a setup as the page draws it. What was not computed yet is queued, and the answer
 * says how far it is.
 */
export async function filmForecastOf(
  service: ShopService,
  { film, exposure }: Readonly<{ film: Film; exposure: Omit<LightExposure, 'subject'> }>,
): Promise<Told<FilmForecast>> {
  const setup = lightSetup(exposure)
  const { belief } = await service.records()
  const doses = counterDoses(belief, exposure, { day: dayOf(service.now()) })
  const key = forecastKey(film.id, setup)
  const common = { kind: 'film forecast', id: forecastId(key), ...doses } as const
  const nothing = { pyramid: null, findings: [], along: [] }
  if (film.status === 'refused') {
    return { ...common, ...nothing, status: 'failed', progressShare: 0, message: film.refusal }
  }
  const kept = await keptForecast(service, { film, setup })
  // one that was kept before there was a finest level has them all
  const pyramid = kept === null ? null : { ...kept.picture.pyramid, finest: finestOf(kept) }
  if (kept === null || kept.findings === null) {
    const progress = await working(service, { filmId: film.id, setup })
    return { ...common, ...nothing, ...progress, pyramid }
  }
  const findings = findingsThatCount(kept, film)
  return {
    ...common,
    status: 'ready',
    progressShare: 1,
    message: null,
    pyramid,
    findings: findings.findings.map((finding, index) => {
      const { xMm, yMm, widthUm, density, effectiveDensity, leakShare, reach } = finding
      const place = { number: index + 1, xMm, yMm, widthUm, density, effectiveDensity, reach }
      return { ...place, opensUpToLu: doses.gelDoseLu / leakShare }
    }),
    along: findings.alongLeakShares.map((leak) => doses.gelDoseLu / leak),
  }
}

function finestOf({ picture: { pyramid } }: FilmWorkPicture): number {
  return (pyramid as Partial<typeof pyramid>).finest ?? 0
}

async function working(
  { jobs, store }: ShopService,
  ask: Readonly<{ filmId: string; setup: Setup }>,
): Promise<Pick<FilmForecast, 'status' | 'progressShare' | 'message'>> {
  const trouble = jobs.trouble(ask)
  if (trouble !== null) return { status: 'failed', progressShare: 0, message: trouble }
  await jobs.queue(store.database, ask)
  jobs.wake()
  const progress = jobs.progress(ask.filmId)
  return progress === null
    ? { status: 'waiting', progressShare: 0, message: null }
    : { status: 'reading', progressShare: progress.share, message: null }
}
