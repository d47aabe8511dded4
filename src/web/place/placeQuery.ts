import { PATHS, type Path } from '../../api/paths.ts'
import type { LaidFilm, Place } from '../../api/place.ts'

/** What the page is about, as it stands in its address. */
const PLACE_KEYS = [
  'ticket',
  'films',
  'screen',
  'unit',
  'frameMm',
  'betweenMm',
  'screenXMm',
  'screenYMm',
  'screenTurned',
] as const
export type PlaceKey = (typeof PLACE_KEYS)[number]

/** The address with some of it changed; what is empty is left out. */
export function withPlace<Answers>(
  path: Path<Answers>,
  search: string,
  changes: Partial<Record<PlaceKey, string>>,
): Path<Answers>
export function withPlace(
  path: string,
  search: string,
  changes: Partial<Record<PlaceKey, string>>,
): string
export function withPlace(
  path: string,
  search: string,
  changes: Partial<Record<PlaceKey, string>>,
): string {
  const before = new URLSearchParams(search)
  const kept = new URLSearchParams()
  for (const key of PLACE_KEYS) {
    const value = changes[key] ?? before.get(key) ?? ''
    if (value !== '') kept.set(key, value)
  }
  const words = kept.toString()
  return words === '' ? path : `${path}?${words}`
}

/** The path of a paper of films as they lie on the drawing. */
export function paperOf(
  which: 'plan' | 'template',
  { screen, clearance, onGlass }: Pick<Place, 'screen' | 'clearance' | 'onGlass'>,
  { laid, paper }: Readonly<{ laid: readonly LaidFilm[]; paper: 'a4' | 'letter' }>,
): string {
  const n = (mm: number): string => String(Number(mm.toFixed(3)))
  const words = new URLSearchParams({
    screen: screen?.id ?? '',
    laid: laid
      .map(({ film, xMm, yMm, turned }) => `${film}:${n(xMm)}:${n(yMm)}${turned ? ':t' : ''}`)
      .join(','),
    frameMm: n(clearance.frameMm),
    betweenMm: n(clearance.betweenMm),
    paper,
  })
  if (onGlass !== null) {
    words.set('unit', onGlass.unit)
    words.set('screenXMm', n(onGlass.xMm))
    words.set('screenYMm', n(onGlass.yMm))
    words.set('screenTurned', String(onGlass.turned))
  }
  return `${which === 'plan' ? PATHS.placePlan : PATHS.placeTemplate}?${words.toString()}`
}
