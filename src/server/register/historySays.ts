import type { Person } from '../../store/people.ts'
import type { ScreenEvent } from '../../store/screenEvents.ts'
import { dateWords } from '../../workflow/papers/dayWords.ts'
import { dayText } from '../shop/days.ts'

/** What happened to a screen, as a line of its history. */
export function historySays(
  { kind, state, ownerId, keptUntil, rackSlot, tensionNewtonPerCm, says }: ScreenEvent,
  people: readonly Person[],
): string {
  switch (kind) {
    case 'came':
      return says ?? 'came into the shop'
    case 'state':
      return `${STATES[state ?? 'clean']}${says === null ? '' : `: ${says}`}`
    case 'owner': {
      const name = people.find(({ id }) => id === ownerId)?.name
      if (name === undefined) return 'nobody’s any more'
      return keptUntil === null ? `${name}’s` : `${name}’s until ${dateWords(dayText(keptUntil))}`
    }
    case 'slot':
      return rackSlot === null ? 'taken out of the rack' : `put to ${rackSlot}`
    case 'tension':
      return `measured ${tensionNewtonPerCm ?? 0} N/cm`
    case 'haze':
    case 'note':
      return says ?? ''
  }
}

const STATES: Readonly<Record<NonNullable<ScreenEvent['state']>, string>> = {
  clean: 'clean',
  coated: 'coated',
  exposed: 'exposed',
  'in print': 'in print',
  'to reclaim': 'to be reclaimed',
  torn: 'torn',
  lost: 'lost',
}
