import type { Hono } from 'hono'
import { PATHS } from '../../api/paths.ts'
import { labelsQuestion, type ScreenLine } from '../../api/register.ts'
import { Failure } from '../../core/failure.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { layersGiven } from '../../store/tickets.ts'
import { dayName } from '../../workflow/papers/dayWords.ts'
import { labelPages } from '../../workflow/papers/labels.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import type { Told } from '../http/route.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { screenThings, screenTold } from './screensTold.ts'

/** A label for each screen; its code leads to the screen's page, at the address by which one came. */
export function addScreenLabels(app: Hono, door: ShopDoor): void {
  app.get(PATHS.screenLabels, async (context) => {
    const { tags, say = 'screen' } = asked(labelsQuestion, context.req.query())
    const { store, now } = door.shop()
    const things = await screenThings(store.database)
    const wanted = tags === undefined ? null : tags.split(',').map((tag) => tag.trim())
    const meant = things.screens.filter(({ tag }) => wanted === null || wanted.includes(tag))
    if (meant.length === 0) {
      const message = 'No screen of this shop has one of these tags: choose others.'
      throw new Failure('not found', message, { field: 'tags' })
    }
    const shop = await theShop(store.database)
    const given = say === 'coat' ? await layersGiven(store.database) : []
    const labels = meant.map((screen) => {
      const told = screenTold(screen, things, { now: now(), meId: null })
      const { tag } = told
      const address = new URL(`/screens/${encodeURIComponent(tag)}`, context.req.url)
      const small =
        say === 'coat'
          ? coatWords(
              told,
              given.find(({ screenId }) => screenId === screen.id),
            )
          : [told.fabric, told.frame, shop.name]
      return { large: tag, small, square: codeSquaresOf(address.href) }
    })
    const date = dayText(now())
    const pages = labelPages(
      {
        labels,
        about: say === 'coat' ? 'Coated screens' : 'Screen labels',
        shop: { name: shop.name, demo: shop.kind === 'demo' },
        date,
      },
      { letters: await openLetters() },
    )
    const title = say === 'coat' ? 'Coated screens' : 'Screen labels'
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title }),
    )
    return fileAnswer(context, bytes, {
      type: 'application/pdf',
      name: `${title.toLowerCase()} ${date}.pdf`,
    })
  })
}

/** For which layer and whom, when it was coated and with what, from when and until when it is good. */
function coatWords(
  { owner, coat, fabric }: Told<ScreenLine>,
  layer: Readonly<{ shortName: string }> | undefined,
): readonly string[] {
  const whose = owner?.name ?? 'nobody’s'
  const meant = layer === undefined ? whose : `${layer.shortName}, ${whose}`
  if (coat === null) return [meant, fabric]
  return [
    meant,
    ...(coat.dryAt === null ? [] : [`Dry by ${clockHere(new Date(coat.dryAt))}`]),
    ...(coat.goodUntil === null ? [] : [`Good to ${shortDay(coat.goodUntil)}`]),
    `Coated ${shortDay(coat.coatedOn)}`,
  ]
}

/** By the clock of the shop's computer. */
function clockHere(at: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0')
  return `${two(at.getHours())}:${two(at.getMinutes())}`
}

/** A day in little room: 29 Nov. */
function shortDay(day: string): string {
  const [date = '', month = ''] = dayName(day).split(' ')
  return `${date} ${month.slice(0, 3)}`
}
