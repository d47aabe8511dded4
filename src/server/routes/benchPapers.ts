import type { Hono } from 'hono'
import { type RunAbout, runSheetPaper } from '../../api/bench.ts'
import { PATHS } from '../../api/paths.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { stepsOf } from '../../core/runSheet/ownList.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { stepListOf } from '../../store/runs.ts'
import { runSheetPages } from '../../workflow/papers/runSheet.ts'
import { aboutOf } from '../bench/about.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { inMemory } from '../papers/inMemory.ts'
import { layerNamed } from '../papers/layerNamed.ts'
import { dayText } from '../shop/days.ts'
import { lightOf } from './lightRoutes.ts'

/** One exposure's steps on paper, from what Light answers to the same question. */
export function addRunSheet(app: Hono, door: ShopDoor): void {
  app.get(PATHS.runSheet, async (context) => {
    const { from, ...question } = asked(runSheetPaper, context.req.query())
    const service = door.shop()
    const light = await lightOf(service, question)
    const { store } = service
    const about = aboutOf(light, { from })
    const of = light.asked.subject
    const filmId = of.kind === 'film' ? of.id : null
    const subject = await layerNamed(store.database, { filmId, name: about.subject })
    const list = await stepListOf(service.store.database, { unitId: light.asked.unit.id })
    const steps = stepsOf({ ...about, wedgeSteps: USUAL_WEDGE.steps }, { list })
    const { shop } = await service.records()
    const date = dayText(service.now())
    const pages = runSheetPages(
      {
        ...about,
        subject,
        unit: unitSaid(about, { from, timed: light.lampTime !== null }),
        steps,
        shop: { name: shop.name, demo: shop.kind === 'demo' },
        date,
      },
      { letters: await openLetters() },
    )
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title: `Run sheet: ${subject}` }),
    )
    return fileAnswer(context, bytes, { type: 'application/pdf', name: `run sheet ${date}.pdf` })
  })
}

/** A lamp that counts seconds wants others when it is cold: the sheet says for which it is. */
function unitSaid(
  { unit, countsIn }: RunAbout,
  { from = 'hot', timed }: Readonly<{ from: 'cold' | 'hot' | undefined; timed: boolean }>,
): string {
  return countsIn === 'seconds' && timed ? `${unit}, ${from}` : unit
}
