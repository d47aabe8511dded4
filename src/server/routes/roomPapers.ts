import type { Hono } from 'hono'
import { PATHS } from '../../api/paths.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { evidencePages } from '../../workflow/papers/evidencePages.ts'
import type { ShopDoor } from '../door.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { handoverTold, type PaperSection } from '../things/handoverTold.ts'
import { yearTold } from '../things/yearTold.ts'

type Paper = Readonly<{
  title: string
  about: string
  told: (service: ShopService) => Promise<readonly PaperSection[]>
}>

const PAPERS: Readonly<Record<string, Paper>> = {
  [PATHS.handover]: {
    title: 'Handover',
    about: 'What whoever comes next must know.',
    told: handoverTold,
  },
  [PATHS.yearReport]: {
    title: 'A year of the shop',
    about: 'What was done in the year until now, and how it came out.',
    told: yearTold,
  },
}

/** Papers of the whole room: PDF, A4. */
export function addRoomPapers(app: Hono, door: ShopDoor): void {
  for (const [path, { title, about, told }] of Object.entries(PAPERS)) {
    app.get(path, async (context) => {
      const service = door.shop()
      const { name, kind } = await theShop(service.store.database)
      const date = dayText(service.now())
      const pages = evidencePages(
        {
          name: title,
          about: `${about} ${name}.`,
          sections: await told(service),
          shop: { name, demo: kind === 'demo' },
          date,
        },
        { letters: await openLetters() },
      )
      const bytes = await inMemory((sink) =>
        writeFilmPdf(pages, { sink, deflater: deflater(), title }),
      )
      const file = `${title.toLowerCase()} ${date}.pdf`
      return fileAnswer(context, bytes, { type: 'application/pdf', name: file })
    })
  }
}
