import type { Choices } from '../../../api/shop.ts'
import { doseText } from '../../figures.ts'
import { keep, kept } from '../../kept.ts'
import { setUpOf } from '../setUp.ts'
import { type Draft, EMPTY, NO_GRADE } from './draft.ts'
import type { PlannedStrip } from './plannedStrip.ts'

const KEY = 'yellowroom.draft'

/** What stands in the fields at first: what this tab was telling, the address, the shop's usual. */
export function firstDraft(
  { usual, units, bases, screens, media }: Choices,
  {
    search,
    today,
    strip,
    kind,
  }: Readonly<{ search: string; today: string; strip: PlannedStrip | null; kind: string }>,
): Draft {
  const said = new URLSearchParams(search)
  const setUp = setUpOf(search)
  const isHere = (list: Choices['units'], id: string): boolean => list.some((one) => one.id === id)
  const first = (list: Choices['units'], ...ids: readonly string[]): string =>
    ids.find((id) => isHere(list, id)) ?? ''
  const fresh: Draft = {
    ...EMPTY,
    unit: first(units, setUp.unit, strip?.unit ?? '', usual.unit),
    base: first(bases, usual.base),
    screen: kind === 'strip' || setUp.fabric !== '' ? '' : first(screens, usual.screen ?? ''),
    fabric: setUp.fabric || (strip?.fabric ?? ''),
    batch: setUp.batch || (strip?.batch ?? ''),
    medium: first(media, said.get('medium') ?? '', strip?.medium ?? ''),
    on: today,
    ...(strip === null
      ? {}
      : {
          bands: strip.dosesLu.map((doseLu) => ({ ...NO_GRADE, dose: doseText(doseLu) })),
        }),
  }
  return { ...fresh, ...keptDraft() }
}

/** Nothing that was typed is lost when the page is left or read anew. */
export function keepDraft(draft: Draft | null): void {
  keep(KEY, JSON.stringify(draft), 'tab')
}

function keptDraft(): Partial<Draft> {
  try {
    return (JSON.parse(kept(KEY, 'tab') ?? 'null') as Partial<Draft> | null) ?? {}
  } catch {
    return {}
  }
}
