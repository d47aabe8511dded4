import type { Point } from '../../core/inspection/homography.ts'
import type { PhotoLight } from '../../raster/photo/photoLight.ts'
import type { MatTarget } from '../../workflow/readPhoto/matIn.ts'
import type { PhotoReading, Reading } from '../../workflow/readPhoto/readPhoto.ts'
import { FORCE_SWITCH, type Given, type Option, type Place } from '../arguments.ts'
import type { Command, Io } from '../command.ts'
import { fourCorners } from '../corners.ts'
import { columns, figures, percent } from '../figures.ts'
import { sizeMm, twoPoints, wedgeDensities } from '../photoReads.ts'
import { progressOn } from '../progress.ts'
import { path } from '../reads.ts'

const PHOTO: Place<string> = {
  name: 'PHOTO',
  about: 'the photo or scan of a film on a light table (JPEG, PNG, TIFF, WebP)',
  needed: true,
  reads: path({ what: 'photo', shown: 'PHOTO' }),
}

const OUT: Option<string> = {
  name: 'out',
  about: 'the density map to write, which other commands take as a film',
  needed: true,
  reads: path({ what: 'density map', shown: 'MAP.tif' }),
}

const CORNERS: Option<readonly Point[]> = {
  name: 'corners',
  about:
    "the sheet's corners in photo pixels, clockwise from its top left; the reading mat's unless given",
  needed: false,
  reads: fourCorners(),
}

const SIZE: Option<Readonly<{ widthMm: number; heightMm: number }>> = {
  name: 'size-mm',
  about:
    'the size of the sheet with those corners; without corners the picture is all sheet, as a scan is',
  needed: false,
  reads: sizeMm(),
}

const WEDGE: Option<readonly [Point, Point]> = {
  name: 'wedge',
  about: "the middles of the step wedge's two ends in photo pixels, the clear end first",
  needed: false,
  reads: twoPoints(),
}

const DENSITIES: Option<string> = {
  name: 'wedge-densities',
  about:
    "the wedge's densities: first:increment:count, or a file of them from the clear end; 0.05:0.15:21 unless given",
  needed: false,
  reads: path({
    what: 'list of densities',
    shown: 'FILE|first:increment:count',
  }),
}

export const read: Command = {
  name: 'read',
  summary: 'a photo of a film on a light table becomes a film that can be forecast',
  places: [PHOTO],
  options: [OUT, CORNERS, SIZE, WEDGE, DENSITIES, FORCE_SWITCH],
  notes: [
    'With our reading mat in the picture (see mat) nothing else need be given. Never use the exposure lamp as a light table: its ultraviolet light harms eyes and skin.',
    'Densities are those the camera sees. A red or brown film can be light to it and dark to the lamp.',
  ],
  example: {
    line: 'read docs/example/film.jpg --corners 105,97,1008,92,1012,1459,25,1396 --size-mm 210x297 --wedge 160,1480,854,1527 --out pencil.tif',
    prints: [
      'film                  210 x 297.1 mm, a pixel of 223 um',
      'densities             0 to 2.63, right to 0.04',
      'finest line it shows  592 um',
      'marks                 104 of 1 mm and more, mostly about 891 um wide, density 0.4 to 1.6',
      'medium                Looks like litho crayon or soft pencil; the photo cannot tell which.',
      'light                 at its darkest 85.7 % of its brightest',
    ].join('\n'),
  },
  run: async (given, io) => {
    const out = given.needs(OUT)
    const { refuseExisting } = await import('../../decode/files.ts')
    await refuseExisting(out, overwriting(given))
    const densities = await wedgeDensities(given.of(DENSITIES), DENSITIES.name)
    const progress = progressOn(io.stderr, 'read')
    const found = await readingOf(given, densities, (share) => progress.at(share))
    await writeMap(out, found, given)
    progress.done()
    tell(found.reading, io)
    return { record: found.reading, text: readingText(found.reading) }
  },
}

function overwriting(given: Given): Readonly<{ force: boolean; inputs: readonly string[] }> {
  return { force: given.has(FORCE_SWITCH), inputs: [given.needs(PHOTO)] }
}

async function readingOf(
  given: Given,
  densities: readonly number[],
  onShare: (share: number) => void,
): Promise<PhotoReading> {
  const { readPhoto } = await import('../../workflow/readPhoto/readPhoto.ts')
  const [corners, size, ends] = [given.of(CORNERS), given.of(SIZE), given.of(WEDGE)]
  const isOnMat = corners === undefined && size === undefined
  const { photo, targets } = await (isOnMat ? onMat : alone)(given.needs(PHOTO))
  onShare(0.3)
  return readPhoto(photo, {
    targets,
    ...(corners === undefined ? {} : { corners }),
    ...(size === undefined ? {} : { sizeMm: size }),
    wedge: { ends: ends ?? null, densities },
  })
}

type Opened = Readonly<{ photo: PhotoLight; targets: readonly MatTarget[] }>

/** The library that finds targets is loaded only where they are needed. */
async function onMat(path: string): Promise<Opened> {
  const { photoOnMat } = await import('../../decode/vision/photoOnMat.ts')
  return photoOnMat(path)
}

async function alone(path: string): Promise<Opened> {
  const { openPhoto } = await import('../../decode/photo.ts')
  return { photo: await openPhoto(path), targets: [] }
}

async function writeMap(out: string, { map }: PhotoReading, given: Given): Promise<void> {
  const { writeWhole } = await import('../../decode/files.ts')
  const { deflater } = await import('../../decode/deflater.ts')
  const { writeFloatTiff } = await import('../../formats/floatTiff.ts')
  const { widthPx, heightPx, pixelMm, values } = map
  const bands = [{ rows: heightPx, samples: values }]
  await writeWhole(out, overwriting(given), (sink) =>
    writeFloatTiff(
      { widthPx, heightPx, pixelUm: 1000 * pixelMm, bands },
      { sink, deflater: deflater() },
    ),
  )
}

function tell({ warnings, asks }: Reading, io: Io): void {
  for (const warning of [...warnings, ...asks]) io.stderr.write(`${warning}\n`)
}

function readingText(reading: Reading): string {
  const { widthMm, heightMm, pixelUm, densitySd, densityRange, smallestLineUm, light } = reading
  const { marks, looksLike } = reading
  return columns([
    [
      'film',
      `${figures(widthMm, 4)} x ${figures(heightMm, 4)} mm, a pixel of ${figures(pixelUm)} um`,
    ],
    [
      'densities',
      `${figures(densityRange.low)} to ${figures(densityRange.high)}, right to ${figures(densitySd, 2)}`,
    ],
    ['finest line it shows', `${figures(smallestLineUm)} um`],
    ['marks', marksText(marks)],
    ['medium', looksLike.says],
    ['light', `at its darkest ${percent(light.evenness)} of its brightest`],
  ])
}

/** How many, how wide and how dense along their middles. */
function marksText({ longCount, widthUm, density }: Reading['marks']): string {
  const dense =
    density === null ? '' : `, density ${figures(density.low, 2)} to ${figures(density.high, 2)}`
  return `${longCount} of 1 mm and more, mostly about ${figures(widthUm, 2)} um wide${dense}`
}
