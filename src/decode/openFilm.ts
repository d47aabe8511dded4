import type { Metadata } from 'sharp'
import { Failure } from '../core/failure.ts'
import { isIn, type Range, rangeWords } from '../core/units/range.ts'
import { readResolution } from '../formats/resolution.ts'
import type { Film, FilmBand } from '../raster/film.ts'
import {
  MAP_DENSITY,
  MOST_PIXELS,
  MOST_PIXELS_WHOLE,
  MOST_SIDE_PX,
  RESOLUTION_DPI,
  SOLID_DENSITY,
} from './filmLimits.ts'
import { pixelSize } from './filmSize.ts'
import { named } from './named.ts'
import { oriented } from './orient.ts'
import { sharp } from './pixelLibrary.ts'
import { FILMS, type PictureKind, unreadable, withFileOfKind } from './sourceFile.ts'
import { DAMAGED, type SampleType, unpack } from './unpack.ts'

export type FilmOptions = Readonly<{
  /** Wins over what the file states. */
  resolutionDpi?: number | undefined
  /** Density of full black above base, 0.3 … 6; 3.5 unless given. */
  solidDensity?: number | undefined
  /** Grey as light let through, or as the share of solid area; transmission unless given. */
  as?: 'transmission' | 'coverage' | undefined
  /**
   * Answers while the file is still being decoded: the bands wait for their rows, and what is
   * damaged further down is thrown by them.
   */
  ahead?: boolean | undefined
}>

export type OpenedFilm = Readonly<{
  film: Film
  warnings: readonly string[]
  close: () => Promise<void>
}>

const DEFAULT_SOLID_DENSITY = 3.5

/**
 * A file as a film: PNG, JPEG, WebP or TIFF of 1 to 16 bits, a density map (TIFF of 32-bit floats,
 * densities above base), or a page of a PDF that we made. Only a few rows are in memory at a time; the samples wait
 * in a temporary file that `close` gives back.
 *
 * @throws Failure 'wrong input' with the option as field, 'missing file', 'unreadable file',
 *   'too large', 'world failed'; the bands of a density map throw 'unreadable file' at a sample
 *   that can be no density
 */
export async function openFilm(path: string, options: FilmOptions = {}): Promise<OpenedFilm> {
  expectOption(options.resolutionDpi, RESOLUTION_DPI, '--resolution-dpi')
  expectOption(options.solidDensity, SOLID_DENSITY, '--solid-density')
  return withFileOfKind(path, FILMS, async ({ kind, source }) => {
    if (kind === 'pdf') return openPage(path, options)
    const head = await sharp(path, { limitInputPixels: false, failOn: 'error' })
      .metadata()
      .catch((cause: unknown) => {
        throw unreadable(path, DAMAGED, cause)
      })
    expectSize(path, head, kind)
    const sampleType = expectSamples(path, head)
    const stated = await readResolution(source)
    const size = pixelSize(path, { stated, givenDpi: options.resolutionDpi })
    const unpacked = await unpack(path, {
      kind,
      widthPx: head.width,
      heightPx: head.height,
      sampleType,
      hasAlpha: head.hasAlpha,
      ahead: options.ahead ?? false,
    })
    const { widthPx, heightPx, bands } = oriented(unpacked, head.orientation ?? 1)
    let open = true
    const film: Film = {
      widthPx,
      heightPx,
      pixelUm: size.pixelUm,
      transmissionOf: transmissionTable(sampleType, options),
      bands: () => {
        if (!open) throw new RangeError('bands: the film is closed')
        return sampleType === 'float' ? checkedBands(bands(), { path, widthPx, ...size }) : bands()
      },
    }
    const close = async (): Promise<void> => {
      if (open) await unpacked.close()
      open = false
    }
    const warnings = [...size.warnings, ...readingWarnings(path, { head, sampleType, options })]
    return { film, warnings, close }
  })
}

/** Black is the film's solid, whichever way grey is read. */
async function openPage(path: string, options: FilmOptions): Promise<OpenedFilm> {
  const { openPdfFilm } = await import('./pdfFilm.ts')
  const givenDpi = options.resolutionDpi
  const page = await openPdfFilm(path, { givenDpi })
  try {
    const { stated, widthPx, heightPx } = page
    const { pixelUm, warnings } = pixelSize(path, { stated, givenDpi })
    const transmissionOf = Float32Array.of(
      1,
      10 ** -(options.solidDensity ?? DEFAULT_SOLID_DENSITY),
    )
    let open = true
    const bands = (): AsyncIterable<FilmBand> => {
      if (!open) throw new RangeError('bands: the film is closed')
      return page.bands()
    }
    const close = async (): Promise<void> => {
      if (open) await page.close()
      open = false
    }
    const film = { widthPx, heightPx, pixelUm, transmissionOf, bands }
    return { film, warnings: [...warnings, ...page.warnings], close }
  } catch (error) {
    await page.close()
    throw error
  }
}

/** Opens a film for as long as `use` runs. */
export async function withFilm<Result>(
  path: string,
  options: FilmOptions,
  use: (opened: OpenedFilm) => Promise<Result>,
): Promise<Result> {
  const opened = await openFilm(path, options)
  try {
    return await use(opened)
  } finally {
    await opened.close()
  }
}

function expectOption(value: number | undefined, range: Range, flag: string): void {
  if (value === undefined || isIn(value, range)) return
  const message = `${flag} takes ${rangeWords(range)}, not ${value}; give the film's own.`
  throw new Failure('wrong input', message, { field: range.name })
}

function expectSize(path: string, head: Metadata, kind: PictureKind): void {
  const { width, height } = head
  const pixels = width * height
  const whole = kind === 'webp' || head.isProgressive === true
  const most = whole ? MOST_PIXELS_WHOLE : MOST_PIXELS
  if (pixels <= most && width <= MOST_SIDE_PX && height <= MOST_SIDE_PX) return
  const limit = `at most ${most / 1e6} million in all and ${MOST_SIDE_PX} a side are read`
  const kindWords = whole ? ' from interlaced, progressive and WebP pictures' : ''
  const message = `${named(path)} has ${width} x ${height} pixels; ${limit}`
  const advice = whole ? 'save it as a plain PNG or TIFF' : 'save it smaller or in parts'
  throw new Failure('too large', `${message}${kindWords}; ${advice}.`)
}

function expectSamples(path: string, head: Metadata): SampleType {
  const { space, depth, channels } = head
  const advice = 'save it as 8- or 16-bit grey'
  if (depth === 'float') {
    if (channels === 1) return 'float'
    const what = `holds ${channels} channels of floating point, and a density map has one`
    throw unreadable(path, `${what}; save the one that holds densities`)
  }
  if (depth !== 'uchar' && depth !== 'ushort') {
    throw unreadable(path, `holds samples of a rare kind (${depth}); ${advice}`)
  }
  if (!['b-w', 'grey16', 'srgb', 'rgb', 'rgb16'].includes(space)) {
    throw unreadable(path, `is a ${space.toUpperCase()} picture; ${advice}`)
  }
  if (channels > (space === 'b-w' || space === 'grey16' ? 2 : 4)) {
    throw unreadable(path, `holds ${channels} channels; ${advice}`)
  }
  return depth === 'uchar' ? '8 bit' : '16 bit'
}

/**
 * Transmission of each sample value; null for densities.
 *
 * As transmission: D = min(solid, −log10 v). As coverage: T = 1 − (1 − v)·(1 − 10^−solid).
 */
function transmissionTable(
  sampleType: SampleType,
  { solidDensity = DEFAULT_SOLID_DENSITY, as = 'transmission' }: FilmOptions,
): Float32Array | null {
  if (sampleType === 'float') return null
  const full = sampleType === '16 bit' ? 65535 : 255
  const least = 10 ** -solidDensity
  return Float32Array.from({ length: full + 1 }, (_, value) =>
    as === 'coverage' ? 1 - ((full - value) / full) * (1 - least) : Math.max(least, value / full),
  )
}

async function* checkedBands(
  bands: AsyncIterable<FilmBand>,
  at: Readonly<{ path: string; widthPx: number; pixelUm: number }>,
): AsyncGenerator<FilmBand> {
  const { low, high } = MAP_DENSITY
  for await (const band of bands) {
    const { samples } = band
    for (let index = 0; index < samples.length; index++) {
      const density = samples[index] ?? Number.NaN
      if (density >= low && density <= high) continue
      const mm = (pixels: number): string => (((pixels + 0.5) * at.pixelUm) / 1000).toFixed(2)
      const place =
        `${mm(index % at.widthPx)} mm from the left and ` +
        `${mm(band.top + Math.floor(index / at.widthPx))} mm from the top`
      const what = `has ${density} at ${place}, and densities are ${low} to ${high}`
      throw unreadable(at.path, `${what}; make the map again`)
    }
    yield band
  }
}

function readingWarnings(
  path: string,
  of: Readonly<{ head: Metadata; sampleType: SampleType; options: FilmOptions }>,
): readonly string[] {
  const { head, sampleType, options } = of
  const { pages = 1, orientation = 1 } = head
  const warnings: readonly (readonly [boolean, string])[] = [
    [pages > 1, `holds ${pages} pictures; the first is read.`],
    [head.channels >= 3, 'is stored in colour; its lightness is read.'],
    [head.hasAlpha, 'is transparent in places or could be; it is laid on clear film.'],
    [head.hasProfile, 'carries a colour profile, which is ignored: its stored values count.'],
    [orientation > 1, 'is stored turned or mirrored; it is read as it is to be seen.'],
    [
      sampleType === 'float' && options.as !== undefined,
      `is a density map; reading as ${options.as} does not apply to it.`,
    ],
  ]
  return warnings.filter(([holds]) => holds).map(([, words]) => `${named(path)} ${words}`)
}
