import type { Context, Hono } from 'hono'
import { PATHS } from '../../api/paths.ts'
import { type LaidFilm, type PlacePaper as PaperAsked, placePaper } from '../../api/place.ts'
import { Failure } from '../../core/failure.ts'
import { checkPlaced } from '../../core/placement/check.ts'
import { LENGTH } from '../../core/placement/problem.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import type { Letters } from '../../formats/letters.ts'
import { theShop } from '../../store/shop.ts'
import { type PlacePaper, placePlanPages } from '../../workflow/papers/placePlan.ts'
import { placeTemplatePages } from '../../workflow/papers/placeTemplate.ts'
import { problemOf, USUAL_CLEARANCE_MM } from '../../workflow/placeProblem.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { inMemory } from '../papers/inMemory.ts'
import { laidByHand } from '../place/placeAnswer.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'

const LAID = /^([^:,\s]{1,80}):(-?\d{1,5}(?:\.\d{1,6})?):(-?\d{1,5}(?:\.\d{1,6})?)(:t)?$/

/** A placement on paper: a small plan, and a template of true size. */
export function addPlacePapers(app: Hono, door: ShopDoor): void {
  const added = [
    [PATHS.placePlan, placePlanPages, 'plan'],
    [PATHS.placeTemplate, placeTemplatePages, 'true size'],
  ] as const
  for (const [path, pagesOf, named] of added) {
    app.get(path, async (context) => pdfAnswer(context, { door, pagesOf, named }))
  }
}

async function pdfAnswer(
  context: Context,
  {
    door,
    pagesOf,
    named,
  }: Readonly<{
    door: ShopDoor
    pagesOf: (paper: PlacePaper, by: Readonly<{ letters: Letters }>) => readonly FilmPage[]
    named: string
  }>,
): Promise<Response> {
  const paper = await paperAsked(door.shop(), asked(placePaper, context.req.query()))
  const pages = pagesOf(paper, { letters: await openLetters() })
  const title = `Screen ${paper.screen}: where to lay it`
  const bytes = await inMemory((sink) =>
    writeFilmPdf(pages, { sink, deflater: deflater(), title, ink: 'grey' }),
  )
  const tag = paper.screen.replace(/[^\w-]+/g, '-')
  const name = `screen ${tag}, ${named} ${paper.date}.pdf`
  return fileAnswer(context, bytes, { type: 'application/pdf', name })
}

async function paperAsked(service: ShopService, query: PaperAsked): Promise<PlacePaper> {
  const { screen = '', frameMm, betweenMm, unit, screenXMm, screenYMm, screenTurned } = query
  const isOnGlass = unit !== undefined && screenXMm !== undefined && screenYMm !== undefined
  const {
    films,
    laid,
    laying,
    screen: told,
  } = await laidByHand(service, {
    screen,
    films: laidFrom(query.laid),
    clearance: {
      frameMm: frameMm ?? USUAL_CLEARANCE_MM,
      betweenMm: betweenMm ?? USUAL_CLEARANCE_MM,
    },
    ...(isOnGlass
      ? { onGlass: { unit, xMm: screenXMm, yMm: screenYMm, turned: screenTurned === 'true' } }
      : {}),
  })
  const { name, kind } = await theShop(service.store.database)
  const problem = problemOf(laying)
  return {
    problem,
    placed: laid,
    names: films.map((film) => film.layer ?? film.name),
    screen: told.name,
    check: checkPlaced(problem, laid),
    shop: { name, demo: kind === 'demo' },
    paper: query.paper ?? 'a4',
    date: dayText(service.now()),
  }
}

/** @throws Failure for what is no list of films with their places */
function laidFrom(text: string): LaidFilm[] {
  return text.split(',').map((part) => {
    const [, film, x, y, turned] = LAID.exec(part) ?? []
    const [xMm, yMm] = [Number(x), Number(y)]
    if (film !== undefined && Math.abs(xMm) <= LENGTH.high && Math.abs(yMm) <= LENGTH.high) {
      return { film, xMm, yMm, turned: turned !== undefined }
    }
    const message = `“${part.slice(0, 60)}” is no film with its place: write it like FILM:145:200, with :t behind it where it is turned.`
    throw new Failure('wrong input', message, { field: 'laid' })
  })
}
