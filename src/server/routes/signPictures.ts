import type { Hono } from 'hono'
import { signPicturePath } from '../../api/paths.ts'
import { testsQuestion } from '../../api/tests.ts'
import { Failure } from '../../core/failure.ts'
import { GRADE_FILM_LEAKS, gradeFilm } from '../../demo/gradeFilm.ts'
import { lightSetup } from '../../workflow/lightSetup.ts'
import { isPicturedSign, PICTURED_SIGNS, signPicture } from '../../workflow/signPicture.ts'
import type { ShopDoor } from '../door.ts'
import { asked } from '../http/asked.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import { setUpAsked } from '../shop/setUpAsked.ts'

/** What the forecast can draw of a failed screen, on this shop's fabric: PNG. */
export function addSignPictures(app: Hono, door: ShopDoor): void {
  const inLine = line()
  app.get(signPicturePath('SIGN').replace('SIGN.png', ':name{.+\\.png}'), async (context) => {
    const sign = decodeURIComponent(context.req.param('name') ?? '').replace(/\.png$/, '')
    if (!isPicturedSign(sign)) {
      const message = `There is no picture of that sign: there are of ${PICTURED_SIGNS.join(', ')}.`
      throw new Failure('not found', message)
    }
    const service = door.shop()
    const question = asked(testsQuestion, context.req.query())
    const { exposure } = setUpAsked(await service.records(), question)
    const setup = lightSetup(exposure)
    const png = await service.kept(`sign ${sign} ${JSON.stringify(setup)}`, () =>
      inLine(async () => {
        const { pngOf } = await import('../../decode/picture.ts') // pixels, which no start waits for
        return pngOf(await signPicture(gradeFilm(), setup, { sign, leaks: GRADE_FILM_LEAKS }))
      }),
    )
    return fileAnswer(context, png, { type: 'image/png', name: `${sign}.png` })
  })
}

/** So long others have their turn between two pictures. */
const BETWEEN_MS = 150

/** One after the other: a page asks for all pictures at once, and its answers go in between. */
function line(): <Result>(draw: () => Promise<Result>) => Promise<Result> {
  let last: Promise<unknown> = Promise.resolve()
  return (draw) => {
    const mine = last.then(() => new Promise((go) => setTimeout(go, BETWEEN_MS))).then(draw)
    last = mine.catch(() => undefined) // whoever asked for it is told
    return mine
  }
}
