import type { Hono } from 'hono'
import { PATHS } from '../../api/paths.ts'
import { labelsQuestion } from '../../api/register.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { labelPages } from '../../workflow/papers/labels.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { screenThings, screenTold } from './screensTold.ts'

/** A label for each screen; its code leads to the screen's page, at the address by which one came. */
export function addScreenLabels(app: Hono, door: ShopDoor): void {
  app.get(PATHS.screenLabels, async (context) => {
    const { tags } = asked(labelsQuestion, context.req.query())
    const { store, now } = door.shop()
    const things = await screenThings(store.database)
    const wanted = tags === undefined ? null : tags.split(',').map((tag) => tag.trim())
    const meant = things.screens.filter(({ tag }) => wanted === null || wanted.includes(tag))
    if (meant.length === 0) {
      const message = 'No screen of this shop has one of these tags: choose others.'
      throw new Failure('not found', message, { field: 'tags' })
    }
    const shop = await theShop(store.database)
    const labels = meant.map((screen) => {
      const { tag, fabric, frame } = screenTold(screen, things, { now: now(), meId: null })
      const address = new URL(`/screens/${encodeURIComponent(tag)}`, context.req.url)
      return { large: tag, small: [fabric, frame, shop.name], square: codeSquaresOf(address.href) }
    })
    const date = dayText(now())
    const pages = labelPages(
      {
        labels,
        about: 'Screen labels',
        shop: { name: shop.name, demo: shop.kind === 'demo' },
        date,
      },
      { letters: await openLetters() },
    )
    const title = 'Screen labels'
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title }),
    )
    return fileAnswer(context, bytes, {
      type: 'application/pdf',
      name: `screen labels ${date}.pdf`,
    })
  })
}
