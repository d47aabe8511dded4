import { RESOLUTION_DPI, SOLID_DENSITY } from '../decode/filmLimits.ts'
import type { FilmOptions, OpenedFilm } from '../decode/openFilm.ts'
import type { Setup } from '../workflow/setup.ts'
import type { Given, Option, Place } from './arguments.ts'
import type { Io } from './command.ts'
import { tidyWhenInterrupted } from './interrupted.ts'
import { numberIn, oneOf, path } from './reads.ts'
import { type ReadSetup, readSetupFile } from './setupFile.ts'

export const FILM: Place<string> = {
  name: 'FILM',
  about:
    'the film as a picture at true size (PNG, TIFF, JPEG, WebP), a PDF page made here, or a density map',
  needed: true,
  reads: path({ what: 'film', shown: 'FILM' }),
}

export const SETUP: Option<string> = {
  name: 'setup',
  about: 'lamp, contact, emulsion, scatter, fabric as JSON; {} means the usual ones',
  needed: true,
  reads: path({ what: 'setup', shown: 'SETUP.json' }),
}

const DPI: Option<number> = {
  name: 'resolution-dpi',
  about: 'pixels per inch, where the file does not say or says it wrong',
  needed: false,
  reads: numberIn(RESOLUTION_DPI, {
    what: 'resolution',
    units: 'pixels per inch',
    like: 720,
    shown: 'DPI',
  }),
}

export const SOLID: Option<number> = {
  name: 'solid-density',
  about: "density of the film's solid black; 3.5 unless given",
  needed: false,
  reads: numberIn(SOLID_DENSITY, {
    what: 'solid density',
    units: 'density',
    like: 3.5,
    shown: 'D',
  }),
}

const AS: Option<'transmission' | 'coverage'> = {
  name: 'as',
  about: 'grey means light let through (transmission) or area covered (coverage)',
  needed: false,
  reads: oneOf(['transmission', 'coverage'], { what: 'way to read grey', shown: 'WORD' }),
}

/** How the picture file is to be read. */
export const FILM_OPTIONS: readonly Option[] = [DPI, SOLID, AS]

export const DEFAULT_SOLID_DENSITY = 3.5

/**
 * Opens film and setup for as long as `use` runs; what the film's file leaves in doubt goes to
 * stderr.
 *
 * @param readSetup how the file's text becomes a setup, where its gaps are not the usual ones
 */
export async function withFilmAndSetup<Result>(
  given: Given,
  io: Io,
  use: (film: OpenedFilm['film'], setup: Setup) => Promise<Result>,
  readSetup?: ReadSetup,
): Promise<Result> {
  const setup = await readSetupFile(given.needs(SETUP), readSetup)
  return withFilmAt(given.needs(FILM), given, io, (film) => use(film, setup))
}

/** Opens the film at a path, read as FILM_OPTIONS say, for as long as `use` runs. */
export async function withFilmAt<Result>(
  path: string,
  given: Given,
  io: Io,
  use: (film: OpenedFilm['film']) => Promise<Result>,
): Promise<Result> {
  const { withFilm } = await import('../decode/openFilm.ts')
  const options: FilmOptions = {
    resolutionDpi: given.of(DPI),
    solidDensity: given.of(SOLID),
    as: given.of(AS),
  }
  return tidyWhenInterrupted(() =>
    withFilm(path, options, async ({ film, warnings }) => {
      for (const warning of warnings) io.stderr.write(`${warning}\n`)
      return use(film)
    }),
  )
}
