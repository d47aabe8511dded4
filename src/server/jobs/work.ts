import type { Refusal } from '../../api/shop.ts'
import type { DemoFilmName } from '../../demo/films.ts'
import type { FilmPicture } from '../../workflow/filmForecast.ts'
import type { FilmFindings } from '../../workflow/filmForecastFindings.ts'
import type { Setup } from '../../workflow/setup.ts'

/** Where a film's pixels come from. */
export type FilmSource =
  | Readonly<{
      kind: 'file'
      path: string
      /** What its owner calls it: sentences speak of that. */
      name: string
      resolutionDpi: number | null
      solidDensity: number | null
      as: 'transmission' | 'coverage' | null
    }>
  /** Drawn by seeded code; its density map is written to mapPath. */
  | Readonly<{ kind: 'demo'; film: DemoFilmName; mapPath: string }>

/** A film to be read and forecast under a setup, in a process of its own. */
export type FilmWork = Readonly<{
  source: FilmSource
  setup: Setup
  /** Where the tiles are to be written. */
  tilesPath: string
  /** Where those are written that show the whole film, when the finer ones come later. */
  shownPath: string
}>

/** What reading a film under a setup found out; all of it is JSON. */
export type FilmWorkResult = Readonly<{
  warnings: readonly string[]
  picture: FilmPicture
  /** All marks, and those that are left when faint lines stay shut; null where there are none. */
  findings: FilmFindings
  withoutFaint: FilmFindings | null
}>

/**
 * The part of it that stands before the marks are looked through: the picture can be drawn. Its
 * tiles are in `shownPath` when it says that finer ones are still to come, else in `tilesPath`.
 */
export type FilmWorkPicture = Pick<FilmWorkResult, 'warnings' | 'picture'>

/** What is said to a process that does work of some kind. */
export type WorkOrder = Readonly<{ kind: 'work'; work: unknown }>

/** What it says; `picture` is a part of the result that can be used before the rest is there. */
export type WorkWord<Early, Result> =
  | Readonly<{ kind: 'ready' }>
  | Readonly<{ kind: 'progress'; share: number; words: string }>
  | Readonly<{ kind: 'picture'; result: Early }>
  | Readonly<{ kind: 'memory'; residentMb: number }>
  | Readonly<{ kind: 'done'; result: Result }>
  | Readonly<{ kind: 'refused'; error: Refusal['error'] }>
