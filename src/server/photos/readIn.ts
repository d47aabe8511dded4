import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { openPhoto } from '../../decode/photo.ts'
import { writeTwoTone } from '../../decode/twoTone.ts'
import { photoOnMat } from '../../decode/vision/photoOnMat.ts'
import { writeFloatTiff } from '../../formats/floatTiff.ts'
import { readPhoto } from '../../workflow/readPhoto/readPhoto.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

/** Clear film and ink, for the eye. */
const COLOURS = { from: [251, 251, 248], to: [29, 27, 24] } as const
const PICTURE_PX = 2000
/** The usual wedge of the trade (common practice, no source). */
const USUAL_WEDGE = { steps: 21, firstDensity: 0.05, increment: 0.15 }

/** Reads a photo of a film on a light table. @throws Failure in one sentence */
export async function readIn(
  { photo, ask, media, mapPath, picturePath }: Extract<PhotoWork, { kind: 'read' }>,
  onProgress: WorkSays<never>['onProgress'],
): Promise<PhotoResult> {
  onProgress(0.1, 'opening the photo')
  const { corners, sizeMm, wedge } = ask
  const byMat = corners === undefined && sizeMm === undefined
  const { photo: light, targets } = byMat
    ? await photoOnMat(photo.path)
    : { photo: await openPhoto(photo.path), targets: [] }
  onProgress(0.4, 'reading the film in it')
  const { steps, firstDensity, increment } = ask.wedgeDensities ?? USUAL_WEDGE
  const densities = Array.from({ length: steps }, (_, step) => firstDensity + step * increment)
  const { reading, map } = readPhoto(light, {
    targets,
    ...(corners === undefined ? {} : { corners }),
    ...(sizeMm === undefined ? {} : { sizeMm }),
    wedge: { ends: wedge ?? null, densities },
    media,
  })
  onProgress(0.7, 'writing down its densities')
  const { widthPx, heightPx, pixelMm, values } = map
  const bands = [{ rows: heightPx, samples: values }]
  await writeWhole(mapPath, { force: true }, (sink) =>
    writeFloatTiff(
      { widthPx, heightPx, pixelUm: 1000 * pixelMm, bands },
      { sink, deflater: deflater() },
    ),
  )
  const dark = { widthPx, heightPx, values: values.map((density) => 1 - 10 ** -density) }
  await writeTwoTone(dark, { path: picturePath, ...COLOURS, mostPx: PICTURE_PX })
  const [a, b, c, d] = reading.corners
  if (a === undefined || b === undefined || c === undefined || d === undefined) {
    throw new RangeError(`corners: expected 4, got ${reading.corners.length}`)
  }
  const { light: evenness, kind: _, marks: _marks, asks: _asks, looksLike, ...told } = reading
  return {
    kind: 'read',
    reading: {
      ...told,
      evenness: evenness.evenness,
      corners: [a, b, c, d],
      wedge: told.wedge === null ? null : [...told.wedge],
      wedgeDensities: { steps, firstDensity, increment },
      warnings: [...told.warnings],
      looksLike: { says: looksLike.says, media: [...looksLike.media] },
    },
  }
}
