import { createHash } from 'node:crypto'
import { isSha256 } from '../../store/blobs/blobPlace.ts'
import type { ForecastKey } from '../../store/forecasts.ts'
import { isSortableId } from '../../store/ids.ts'
import { spreadOf } from '../../workflow/exposurePhysics.ts'
import type { Setup } from '../../workflow/setup.ts'

/** Of the way a film's picture and findings are computed; another makes kept ones worth nothing. */
export const FORECAST_VERSION = 1

/**
 * A forecast's name. Of a setup only how the light spreads counts: doses come later, so screens of
 * one fabric under one lamp share their pictures.
 */
export function forecastKey(filmId: string, setup: Setup): ForecastKey {
  const setupHash = createHash('sha256')
    .update(JSON.stringify(spreadOf(setup)))
    .digest('hex')
  return { filmId, setupHash, version: FORECAST_VERSION }
}

/** One text that stands for a forecast and for nothing else, ever: what it names never changes. */
export function forecastId({ filmId, setupHash, version }: ForecastKey): string {
  return `${filmId}-${setupHash}-${version}`
}

/** Null for a text that names none. */
export function forecastKeyOf(id: string): ForecastKey | null {
  const [filmId = '', setupHash = '', version = '', ...rest] = id.split('-')
  const fits = isSortableId(filmId) && isSha256(setupHash) && /^\d{1,6}$/.test(version)
  return fits && rest.length === 0 ? { filmId, setupHash, version: Number(version) } : null
}
