import type { LightQuestion } from '../../api/light.ts'
import { Failure } from '../../core/failure.ts'
import type { LightBase, LightExposure, LightUnit } from '../../workflow/lightRecords.ts'
import { baseNamed, type ShopRecords } from './shopRecords.ts'
import type { ShopScreen } from './shopThings.ts'
import { usualScreen } from './usual.ts'

type Things = Omit<LightExposure, 'subject'>

/**
 * Base, screen and unit of a question by their ids or by the names people use; what is not named
 * is usual.
 *
 * @param filmBaseId the base of the film that is asked about; null for a medium
 * @throws Failure 'not found' with the field, for what the shop does not have
 */
export function exposureAsked(
  records: ShopRecords,
  { base, screen, unit }: Pick<LightQuestion, 'base' | 'screen' | 'unit'>,
  { filmBaseId }: Readonly<{ filmBaseId: string | null }>,
): Things {
  const named = screen === undefined ? usualScreen(records) : screenAsked(records, screen)
  return {
    base: base === undefined ? baseNamed(records, filmBaseId) : baseAsked(records, base),
    screen: named?.light ?? null,
    unit: unitAsked(records, unit),
  }
}

/** @throws Failure 'not found' */
export function unitAsked({ units }: ShopRecords, unit: string | undefined): LightUnit {
  const found = unit === undefined ? units[0] : units.find(isCalled(unit))
  if (found === undefined) throw notHere('exposure unit', 'unit')
  return found
}

/** @throws Failure 'not found' */
export function baseAsked({ bases }: ShopRecords, base: string): LightBase {
  const found = bases.find(isCalled(base))
  if (found === undefined) throw notHere('film base', 'base')
  return found
}

/** @throws Failure 'not found' */
export function mediumAsked({ media }: ShopRecords, medium: string | undefined) {
  const found = medium === undefined ? media[0] : media.find(isCalled(medium))
  if (found === undefined) throw notHere('medium', 'medium')
  return found
}

/** A screen by id, name or tag. @throws Failure 'not found' */
export function screenAsked({ screens }: ShopRecords, screen: string): ShopScreen {
  const found = screens.find(
    ({ record, light }) => isCalled(screen)(light) || record.tag === screen.trim(),
  )
  if (found === undefined) throw notHere('screen', 'screen')
  return found
}

function isCalled(asked: string): (record: Readonly<{ id: string; name: string }>) => boolean {
  const plain = asked.trim().toLowerCase()
  return ({ id, name }) => id === plain || name.toLowerCase() === plain
}

function notHere(what: string, field: string): Failure {
  const message = `There is no such ${what} in this shop: choose one that is there.`
  return new Failure('not found', message, { field })
}
