import type { Context, Hono } from 'hono'
import { stripPaper, wallPaper } from '../../api/papers.ts'
import { gradePicturePath, PATHS } from '../../api/paths.ts'
import { designQuestion, gradePictures, testsQuestion } from '../../api/tests.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { GRADE_FILM_LEAKS, gradeFilm } from '../../demo/gradeFilm.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { dayOfIso, isoOfDay } from '../../workflow/calendarDay.ts'
import {
  GRADE_LOOKS,
  type GradePicture,
  gradeDoses,
  gradePicture,
  type PicturedGrade,
} from '../../workflow/gradePicture.ts'
import { lightSetup } from '../../workflow/lightSetup.ts'
import { testFilmPage } from '../../workflow/papers/testFilm.ts'
import { WALL_ROWS, wallChartPage } from '../../workflow/papers/wallChart.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { type Route, route } from '../http/route.ts'
import { inMemory } from '../papers/inMemory.ts'
import { pageBits } from '../papers/pageBits.ts'
import { dayText } from '../shop/days.ts'
import { fabricName } from '../shop/lightThings.ts'
import { setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { designOf } from '../tests/designAnswer.ts'
import { testsOf } from '../tests/testsAnswer.ts'

const GRADES = Object.keys(GRADE_LOOKS) as readonly PicturedGrade[]
const FILM_DPI = 720
/** A test is good for so long; judged. */
const TEST_DUE_DAYS = 28

/** What grades look like, as a list. */
export function gradeRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.grades,
      summary: 'what each grade looks like on this fabric, drawn by the forecast',
      query: designQuestion,
      answer: gradePictures,
      run: async ({ query }) => {
        setUpAsked(await door.shop().records(), query)
        const { fabric, batch, unit } = query
        const given = Object.entries({ fabric, batch, unit }).filter(
          ([, value]) => value !== undefined,
        )
        const search = new URLSearchParams(given as [string, string][]).toString()
        return {
          kind: 'grades' as const,
          grades: GRADES.map((grade) => ({
            grade,
            words: GRADE_LOOKS[grade],
            picture: `${gradePicturePath(grade)}${search === '' ? '' : `?${search}`}`,
          })),
        }
      },
    }),
  ]
}

/** Papers and pictures: bytes, each with its file's name. */
export function addPapers(app: Hono, door: ShopDoor): void {
  app.get(PATHS.stripPdf, async (context) => {
    const { page, name } = await stripOf(door.shop(), context)
    return fileAnswer(context, await pdfOf(page, 'Test film for doses'), {
      type: 'application/pdf',
      name: `${name}.pdf`,
    })
  })
  app.get(PATHS.stripTiff, async (context) => {
    const { page, name, resolutionDpi } = await stripOf(door.shop(), context)
    return fileAnswer(context, await pageBits({ page, resolutionDpi }), {
      type: 'image/tiff',
      name: `${name}.tif`,
    })
  })
  app.get(PATHS.wallChart, async (context) => {
    const { paper, ...question } = asked(wallPaper, context.req.query())
    const service = door.shop()
    const { shop } = await service.records()
    const { asked: setUp, media, countsIn, on } = await testsOf(service, question)
    const coating = setUp.batch === null ? '' : ` with ${setUp.batch.name}`
    const page = wallChartPage(
      {
        shop: { name: shop.name, demo: shop.kind === 'demo' },
        setUp: `${setUp.fabric.name}${coating} under ${setUp.unit.name}`,
        countsIn,
        rows: media
          .slice(0, WALL_ROWS.high)
          .map(({ medium, ...row }) => ({ ...row, medium: medium.name })),
        date: on,
        nextTestDue: isoOfDay((dayOfIso(on) ?? 0) + TEST_DUE_DAYS),
        ...(paper === undefined ? {} : { paper }),
      },
      { letters: await openLetters() },
    )
    const named = { type: 'application/pdf', name: `doses ${on}.pdf` }
    return fileAnswer(context, await pdfOf(page, 'Doses'), named)
  })
  app.get(gradePicturePath('GRADE').replace('GRADE.png', ':name{.+\\.png}'), async (context) => {
    const name = decodeURIComponent(context.req.param('name') ?? '').replace(/\.png$/, '')
    const grade = GRADES.find((known) => known === name)
    if (grade === undefined) {
      throw new Failure(
        'not found',
        `There is no picture of that: grades are ${GRADES.join(', ')}.`,
      )
    }
    const service = door.shop()
    const question = asked(testsQuestion, context.req.query())
    const { exposure } = setUpAsked(await service.records(), question)
    const key = `grade ${grade} ${JSON.stringify(lightSetup(exposure))}`
    const png = await service.kept(key, async () => {
      const { pngOf } = await import('../../decode/picture.ts') // pixels, which no start waits for
      return pngOf(await gradeDrawn(exposure, grade))
    })
    return fileAnswer(context, png, { type: 'image/png', name: `${grade}.png` })
  })
}

function gradeDrawn(
  exposure: Parameters<typeof lightSetup>[0],
  grade: PicturedGrade,
): Promise<GradePicture> {
  const setup = lightSetup(exposure)
  return gradePicture(gradeFilm(), setup, { doseLu: gradeDoses(setup, GRADE_FILM_LEAKS)[grade] })
}

async function stripOf(
  service: ShopService,
  context: Context,
): Promise<Readonly<{ page: FilmPage; name: string; resolutionDpi: number }>> {
  const query = asked(stripPaper, context.req.query())
  const { paper, resolutionDpi = FILM_DPI, ...question } = query
  const records = await service.records()
  const { shop } = records
  const design = await designOf(service, question)
  const { batch } = design.asked
  const { fabric, exposure } = setUpAsked(records, question)
  const date = dayText(service.now())
  const coating = batch === null ? '' : `, ${batch.name}`
  const page = testFilmPage(
    {
      bandCounts: design.bands.map(({ doseLu }) => doseLu),
      countsIn: design.countsIn,
      setUp: `For ${fabricName(fabric)}${coating}, ${exposure.unit.name}: what does ${design.asked.medium.name} want?`,
      shop: { name: shop.name, demo: shop.kind === 'demo' },
      date,
      ...(paper === undefined ? {} : { paper }),
    },
    { letters: await openLetters() },
  )
  return { page, name: `test film ${date}`, resolutionDpi }
}

function pdfOf(page: FilmPage, title: string): Promise<Uint8Array<ArrayBuffer>> {
  return inMemory((sink) => writeFilmPdf([page], { sink, deflater: deflater(), title }))
}
