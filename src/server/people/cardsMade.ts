import type { Cards } from '../../api/people.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { personOf } from '../../store/people.ts'
import { keepCredential } from '../../store/sessions.ts'
import { theShop } from '../../store/shop.ts'
import { labelPages } from '../../workflow/papers/labels.ts'
import type { Told } from '../http/route.ts'
import { codeSquaresOf } from '../papers/codeSquares.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import type { ShopService } from '../shop/shopService.ts'
import { refuseAbove } from './actOnPerson.ts'
import type { Who } from './peopleKeeper.ts'
import { codeHash, codeText, newCode } from './secrets.ts'

/**
 * A new code for each, and the cards on paper. The code stands after the # of the address, which no
 * browser sends to a server, so that it is in nobody's log.
 *
 * @throws Failure 'not found' for somebody who is not here
 */
export async function cardsMade(
  { store: { database }, now }: ShopService,
  { ids, who, address }: Readonly<{ ids: readonly string[]; who: Who; address: string }>,
): Promise<Told<Cards>> {
  const shop = await theShop(database)
  const at = now()
  const made: { id: string; name: string; code: string }[] = []
  for (const id of ids) {
    const { name, role } = await personOf(database, id)
    refuseAbove(who, role)
    const code = newCode()
    const kept = await codeHash(code, { shopId: shop.id })
    await keepCredential(database, { personId: id, codeHash: kept }, { at })
    made.push({ id, name, code: codeText(code) })
  }
  const date = dayText(at)
  const labels = made.map(({ name, code }) => ({
    large: code,
    small: [name, shop.name],
    square: codeSquaresOf(new URL(`/people/sign-in#${code}`, address).href),
  }))
  const pages = labelPages(
    { labels, about: 'Cards', shop: { name: shop.name, demo: shop.kind === 'demo' }, date },
    { letters: await openLetters() },
  )
  const title = 'Cards'
  const bytes = await inMemory((sink) => writeFilmPdf(pages, { sink, deflater: deflater(), title }))
  return { kind: 'cards', cards: made, pdf: Buffer.from(bytes).toString('base64') }
}
