import type { InkAsked } from '../../api/tickets.ts'
import type { Srgb } from '../../core/colour/space.ts'
import { labFromSrgb } from '../../core/colour/srgb.ts'
import { Failure } from '../../core/failure.ts'
import { share } from '../../core/units/quantity.ts'
import type { Database } from '../../store/database/database.ts'
import { addInk, type Ink, inks } from '../../store/inks.ts'

/** What hides how much: until somebody measures it, as most ready inks do. Judged. */
const USUAL_OPACITY = share(0.9)

/**
 * An ink of the shop, or a new one with the colour that somebody chose on a screen: an estimate.
 *
 * @throws Failure 'not found' for an id that the shop does not have
 */
export async function inkFor(
  database: Database,
  asked: InkAsked,
  { at }: Readonly<{ at: Date }>,
): Promise<Ink> {
  const known = await inks(database)
  if (typeof asked === 'string') {
    const ink = known.find(({ id }) => id === asked)
    if (ink !== undefined) return ink
    const message = 'There is no such ink in this shop: choose one that is there.'
    throw new Failure('not found', message, { field: 'inks' })
  }
  const { name, colour } = asked
  const same = known.find((ink) => ink.name.toLowerCase() === name.toLowerCase())
  if (same !== undefined) return same
  const [labL, labA, labB] = labFromSrgb(srgbOf(colour))
  const lab = { labL, labA, labB, opacity: USUAL_OPACITY, status: 'estimated' } as const
  return addInk(database, { name, ...lab }, { at })
}

/** @param colour as #1d1b18 */
function srgbOf(colour: string): Srgb {
  const part = (from: number): number => Number.parseInt(colour.slice(from, from + 2), 16) / 255
  return [part(1), part(3), part(5)]
}
