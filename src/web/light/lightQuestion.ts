import type { LightQuestion } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import type { Choices } from '../../api/shop.ts'

/** The blanks as they stand: a medium or a film, a base, a screen, a lamp. */
export type Blanks = Readonly<{
  subject: Readonly<{ kind: 'medium' | 'film'; id: string }>
  base: string
  screen: string
  unit: string
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
  }
}

function asked({ subject, base, screen, unit }: Blanks): LightQuestion {
  return {
    [subject.kind]: subject.id,
    base,
    unit,
    ...(screen === '' ? {} : { screen }),
  }
}

export function lightSearch(blanks: Blanks): string {
  return `?${new URLSearchParams(asked(blanks) as Record<string, string>).toString()}`
}

export function lightPath(blanks: Blanks): string {
  return `${PATHS.light}${lightSearch(blanks)}`
}
