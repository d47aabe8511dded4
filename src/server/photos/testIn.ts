import type { PhotoStrip } from '../../api/photos.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Failure } from '../../core/failure.ts'
import type { Point } from '../../core/inspection/homography.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { pageFilm } from '../../decode/pageFilm.ts'
import { openPhoto, type Photo } from '../../decode/photo.ts'
import { testFilmPage } from '../../workflow/papers/testFilm.ts'
import { type FilmPaper, filmLayout } from '../../workflow/papers/testFilmLayout.ts'
import { readTestStrip } from '../../workflow/readTestPhoto/readTestStrip.ts'
import { readTestWedge } from '../../workflow/readTestPhoto/readTestWedge.ts'
import type { WorkSays } from '../jobs/servedWork.ts'
import type { PhotoResult, PhotoWork } from './photoWork.ts'

/** Fine enough for the thinnest reed that is judged. */
const FILM_DPI = 300

/** Reads a washed-out wedge or strip. @throws Failure in one sentence */
export async function testIn(
  { test, photo, ask }: Extract<PhotoWork, { kind: 'test' }>,
  onProgress: WorkSays<never>['onProgress'],
): Promise<PhotoResult> {
  onProgress(0.1, 'opening the photo')
  const light = await openPhoto(photo.path)
  onProgress(0.4, `reading the ${test} in it`)
  const { corners } = ask
  if (test === 'strip') {
    return {
      kind: 'test',
      told: await stripIn(light, { strip: ask.strip, corners }),
    }
  }
  if (corners === undefined) throw missing('Show where the four corners of the wedge are.')
  const steps = ask.wedgeDensities?.steps ?? USUAL_WEDGE.steps
  const { left, warnings, ...told } = readTestWedge(light, { corners, steps })
  return {
    kind: 'test',
    told: { ...told, left: [...left], warnings: [...warnings] },
  }
}

type Told = Extract<PhotoResult, { kind: 'test' }>['told']

async function stripIn(
  light: Photo,
  {
    strip,
    corners,
  }: Readonly<{
    strip: PhotoStrip | undefined
    corners: readonly Point[] | undefined
  }>,
): Promise<Told> {
  if (strip === undefined) throw missing('Say which doses stand on the strip’s film.')
  const { bandCounts, countsIn, paper, marks } = strip
  const doses = bandCounts.toSorted((a, b) => b - a)
  if (new Set(doses).size < doses.length) throw missing('No two bands have the same dose.')
  if (marks !== 'printed' && marks.column > marks.of) throw missing('There is no such column.')
  const letters = await openLetters()
  const readOn = async (on: FilmPaper): ReturnType<typeof readTestStrip> => {
    const page = testFilmPage({ bandCounts: doses, countsIn, paper: on }, { letters })
    const film = await pageFilm(page, { resolutionDpi: FILM_DPI })
    const layout = filmLayout({ bands: doses.length, paper: on })
    const asked = { film, layout, marks }
    return readTestStrip(light, corners === undefined ? asked : { ...asked, corners })
  }
  const { bands, warnings } = await readOn(paper).catch(async (cause: unknown) => {
    // a browser guesses the paper by its country
    const [other, word] = paper === 'a4' ? (['letter', 'letter'] as const) : (['a4', 'A4'] as const)
    const again = await readOn(other).catch(() => null)
    if (again === null) throw cause
    const said = `The film in the photo is one on ${word} paper, and was read as that.`
    return { ...again, warnings: [said, ...again.warnings] }
  })
  return {
    kind: 'strip',
    bands: bands.map((band, at) => ({ doseLu: doses[at] ?? 0, ...band })),
    warnings: [...warnings],
  }
}

function missing(message: string): Failure {
  return new Failure('wrong input', message, { field: 'photo' })
}
