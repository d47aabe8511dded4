import type { LightQuestion } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import type { Choices } from '../../api/shop.ts'
import { asking } from '../ask.ts'

/** The blanks as they stand: a medium or a film, a base, a screen, a lamp, a place on its glass. */
export type Blanks = Readonly<{
  subject: Readonly<{ kind: 'medium' | 'film'; id: string }>
  base: string
  screen: string
  unit: string
  /** Where the film lies on the glass; null: in the middle. */
  place: Readonly<{ xMm: number; yMm: number }> | null
}>

/** The blanks at the start: what the address says, else the shop's commonest. */
export function firstBlanks({ usual }: Choices, search: string): Blanks {
  const said = new URLSearchParams(search)
  const film = said.get('film')
  return {
    subject:
      film === null
        ? { kind: 'medium', id: said.get('medium') ?? usual.medium }
        : { kind: 'film', id: film },
    base: said.get('base') ?? usual.base,
    screen: said.get('screen') ?? usual.screen ?? '',
    unit: said.get('unit') ?? usual.unit,
    place: placeSaid(said.get('place')),
  }
}

/** `420,310` */
function placeSaid(text: string | null): Blanks['place'] {
  const [xMm, yMm] = text?.split(',').map(Number) ?? []
  const isPlace = xMm !== undefined && yMm !== undefined && xMm >= 0 && yMm >= 0
  return isPlace ? { xMm, yMm } : null
}

function asked({ subject, base, screen, unit, place }: Blanks): LightQuestion {
  return {
    [subject.kind]: subject.id,
    base,
    unit,
    ...(screen === '' ? {} : { screen }),
    ...(place === null ? {} : { place: `${place.xMm},${place.yMm}` }),
  }
}

export function lightSearch(blanks: Blanks): string {
  return `?${new URLSearchParams(asked(blanks) as Record<string, string>).toString()}`
}

export function lightPath(blanks: Blanks): typeof PATHS.light {
  return asking(PATHS.light, lightSearch(blanks))
}
