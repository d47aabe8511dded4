import type { Choice, Choices } from '../../api/shop.ts'
import { type Film, films } from '../../store/films.ts'
import type { LightUnit } from '../../workflow/lightRecords.ts'
import type { Told } from '../http/route.ts'
import { fabricName } from './lightThings.ts'
import type { ShopService } from './shopService.ts'
import type { ShopScreen } from './shopThings.ts'
import { usualScreen, whyNot } from './usual.ts'

const MOST_FILMS = 200

/** What fills the blanks of the sentence, the usual things first. */
export async function shopChoices({ store, records }: ShopService): Promise<Told<Choices>> {
  const known = await records()
  const { media, bases, screens, units, usualBase } = known
  const usual = usualScreen(known)
  const ordered = screens.toSorted((a, b) => order(a, usual) - order(b, usual))
  return {
    kind: 'choices',
    media: media.map(({ id, name }) => ({ id, name, about: null, not: null })),
    films: (await films(store.database, { limit: MOST_FILMS })).map(filmChoice),
    bases: bases.map(({ id, name }) => ({ id, name, about: null, not: null })),
    screens: ordered.map(screenChoice),
    units: units.map(unitChoice),
    usual: {
      medium: media[0]?.id ?? '',
      base: usualBase.id,
      screen: usual?.light.id ?? null,
      unit: units[0]?.id ?? '',
    },
  }
}

function order(screen: ShopScreen, usual: ShopScreen | null): number {
  if (screen.record.id === usual?.record.id) return 0
  return whyNot(screen) === null ? 1 : 2
}

function screenChoice(screen: ShopScreen): Choice {
  const { id, name } = screen.light
  return { id, name, about: fabricName(screen.fabric), not: whyNot(screen) }
}

function unitChoice({ id, name, lamp, countsPerLu }: LightUnit): Choice {
  const what = lamp.kind === 'bank' ? 'tubes or a panel' : 'a lamp'
  const not =
    countsPerLu === null ? 'counts seconds, and nobody has told us of an exposure yet' : null
  return { id, name, about: `${what} ${lamp.distanceMm} mm from the glass`, not }
}

function filmChoice({ id, name, status }: Film): Choice {
  const not = { waiting: 'being read', refused: 'could not be read', ready: null }[status]
  return { id, name, about: null, not }
}
