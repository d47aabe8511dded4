import type { NewScreens } from '../../api/register.ts'
import { Failure } from '../../core/failure.ts'
import { mm } from '../../core/units/quantity.ts'
import { type Database, inTransaction } from '../../store/database/database.ts'
import { addFrame, frames } from '../../store/frames.ts'
import { addScreenEvent } from '../../store/screenEvents.ts'
import { addScreen } from '../../store/screens.ts'
import type { ShopService } from '../shop/shopService.ts'

/**
 * Gives tags to frames: all of them or none.
 *
 * @throws Failure 'conflict' for a tag that another screen carries, 'not found' for a fabric or
 * frame that the shop does not have
 */
export async function newInRegister(
  { store: { database }, now, changed }: ShopService,
  { tags, fabric, frame, newtonPerCm }: NewScreens,
  { personId }: Readonly<{ personId: string | null }>,
): Promise<void> {
  const at = now()
  const tensionNewtonPerCm = newtonPerCm ?? null
  await inTransaction(database, async (inner) => {
    const frameId = await frameFor(inner, frame, at)
    for (const [index, tag] of tags.entries()) {
      const made = await addScreen(
        inner,
        {
          tag,
          frameId,
          fabricId: fabric,
          state: 'clean',
          tensionNewtonPerCm,
          tensionMeasuredAt: tensionNewtonPerCm === null ? null : at,
        },
        { at: new Date(at.getTime() + index) },
      )
      const came = { screenId: made.id, kind: 'came', state: 'clean' } as const
      const event = { ...came, tensionNewtonPerCm, personId, happenedAt: at }
      await addScreenEvent(inner, { event }, { at })
    }
  })
  changed()
}

/** A frame of the shop by id or name, or one of a size that may be new to it. */
async function frameFor(database: Database, frame: NewScreens['frame'], at: Date): Promise<string> {
  const known = await frames(database)
  if (typeof frame === 'string') {
    const found = known.find(({ id, name }) => id === frame || name === frame)
    if (found !== undefined) return found.id
    const message = 'There is no such frame in this shop: choose one, or write its inside in mm.'
    throw new Failure('not found', message, { field: 'frame' })
  }
  const { widthMm, heightMm } = frame
  const same = known.find(
    (each) => each.insideWidthMm === widthMm && each.insideHeightMm === heightMm,
  )
  if (same !== undefined) return same.id
  const inside = { insideWidthMm: mm(widthMm), insideHeightMm: mm(heightMm) }
  return (await addFrame(database, { name: `${widthMm} x ${heightMm}`, ...inside }, { at })).id
}
