import type { Hono } from 'hono'
import { hazardLabelPath } from '../../api/paths.ts'
import { newThing } from '../../api/things.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { things } from '../../store/things.ts'
import { hazardLabelPages } from '../../workflow/papers/hazardLabel.ts'
import type { ShopDoor } from '../door.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'

/** Labels for what was decanted, with the shop's own hazard text: PDF. */
export function addHazardLabels(app: Hono, door: ShopDoor): void {
  app.get(hazardLabelPath('THING').replace('THING', ':thing'), async (context) => {
    const { store, now } = door.shop()
    const id = context.req.param('thing')
    const thing = (await things(store.database)).find((each) => each.id === id)
    const told =
      thing === undefined
        ? null
        : newThing.parse({ kind: thing.kind, name: thing.name, facts: thing.facts })
    if (told?.kind !== 'hazard text') {
      throw new Failure(
        'not found',
        'There is no such hazard text in this shop: look at Shop again.',
      )
    }
    const { name, kind } = await theShop(store.database)
    const date = dayText(now())
    const label = { name: told.name, text: told.facts.text, date }
    const pages = hazardLabelPages(
      { ...label, shop: { name, demo: kind === 'demo' } },
      { letters: await openLetters() },
    )
    const title = `Label ${told.name}`
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title }),
    )
    return fileAnswer(context, bytes, { type: 'application/pdf', name: `${title} ${date}.pdf` })
  })
}
