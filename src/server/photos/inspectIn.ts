import { deflater } from '../../decode/deflater.ts'
import { writeWhole } from '../../decode/files.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { withFilm } from '../../decode/openFilm.ts'
import { openPhoto } from '../../decode/photo.ts'
import { writeTwoTone } from '../../decode/twoTone.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { inspectScreen, type Laid } from '../../workflow/inspectScreen/inspectScreen.ts'
import { spottingListPage } from '../../workflow/papers/spottingList.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

type OnProgress = WorkSays<never>['onProgress']

/** Emulsion, light through open fabric; clear film, ink: as pictures of a screen and of a film. */
const SCREEN_COLOURS = { from: [15, 80, 76], to: [250, 221, 142] } as const
const FILM_COLOURS = { from: [251, 251, 248], to: [29, 27, 24] } as const
/** Enough to see a finding enlarged. */
const PICTURE_PX = 2400

/** Compares a photo of a screen with its film. @throws Failure */
export async function inspectIn(
  { photo, film, ask, screenPath, filmPath, list }: Extract<PhotoWork, { kind: 'inspect' }>,
  onProgress: OnProgress,
): Promise<PhotoResult> {
  onProgress(0.1, 'opening the photo')
  const light = await openPhoto(photo.path)
  onProgress(0.35, 'laying the photo over the film')
  const { path, resolutionDpi, solidDensity, as } = film
  const stated = {
    resolutionDpi: resolutionDpi ?? undefined,
    solidDensity: solidDensity ?? undefined,
    as: as ?? undefined,
  }
  const { answer, laid, size } = await withFilm(path, stated, async ({ film: pixels }) => {
    const kept: { laid: Laid | null } = { laid: null }
    const told = await inspectScreen(light, pixels, {
      corners: ask.corners,
      limitUm: ask.limitUm,
      onLaid: (both) => {
        kept.laid = both
      },
    })
    const mm = (px: number): number => (px * pixels.pixelUm) / 1000
    const filmMm = { widthMm: mm(pixels.widthPx), heightMm: mm(pixels.heightPx) }
    return { answer: told, laid: kept.laid, size: filmMm }
  })
  if (laid === null) throw new RangeError('laid: expected screen and film, got nothing')
  onProgress(0.85, 'drawing what was found')
  await writeTwoTone(laid.screen, { path: screenPath, ...SCREEN_COLOURS, mostPx: PICTURE_PX })
  await writeTwoTone(laid.film, { path: filmPath, ...FILM_COLOURS, mostPx: PICTURE_PX })
  const { verdict, mirrored, resolutionUm, findings, warnings } = answer
  if (findings.length > 0) {
    const { path: listPath, ...about } = list
    const { film: marks, cellUm } = laid
    const letters = await openLetters()
    const page = spottingListPage({ ...about, marks, cellUm, findings }, { letters })
    await writeWhole(listPath, { force: true }, (sink) =>
      writeFilmPdf([page], { sink, deflater: deflater(), title: 'Spotting list' }),
    )
  }
  return {
    kind: 'inspect',
    inspection: {
      verdict,
      mirrored,
      resolutionUm,
      ...size,
      findings: findings.map((finding, at) => ({ number: at + 1, ...finding })),
      warnings: [...warnings],
    },
  }
}
