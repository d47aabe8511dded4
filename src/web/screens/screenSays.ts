import type { ScreenLine } from '../../api/register.ts'
import { clockText } from '../figures.ts'
import type { Station } from '../signs/StationFrame.tsx'
import { SCREENS_WORDS } from './screensWords.ts'

/** A day for people: Thursday 19 November; an answer's `2026-11-19`. */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone: 'UTC',
  }).format(new Date(day))
}

/** The same where it stands among others: 19 November. */
export function shortDay(day: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'long',
    timeZone: 'UTC',
  }).format(new Date(day))
}

/** A screen as a frame: empty, drying, done … */
export function stationOf({ state, next }: Pick<ScreenLine, 'state' | 'next'>): Station {
  switch (state) {
    case 'clean':
      return 'not yet'
    case 'coated':
      return next === 'the coat is too old' ? 'make again' : 'drying'
    case 'exposed':
    case 'to reclaim':
      return 'done'
    case 'in print':
      return 'here now'
    case 'torn':
    case 'lost':
      return 'make again'
  }
}

/** Whose it is, by the first name of who asks. */
export function whoseIs({ owner, mine }: ScreenLine): string {
  if (owner === null) return SCREENS_WORDS.nobodys
  const [firstName = owner.name] = owner.name.split(' ')
  return mine ? SCREENS_WORDS.mineIs(firstName) : SCREENS_WORDS.whose(owner.name)
}

/** What is on it, in a sentence; null: it is bare. */
export function whatIsOn({ stencil, coat, state }: ScreenLine): string | null {
  if (stencil !== null) {
    const { layer, film, litOn } = stencil
    if (layer !== null) {
      const of = SCREENS_WORDS.forTicket(layer.ink?.name ?? layer.shortName, layer.ticket.name)
      return `${of}${SCREENS_WORDS.pulled(layer.pulled)}`
    }
    return film === null
      ? SCREENS_WORDS.unknownStencil(dayWords(litOn))
      : SCREENS_WORDS.film(film.name, dayWords(litOn))
  }
  if (coat === null || state === 'clean') return null
  return SCREENS_WORDS.coatIs(coat.recipe, coat.bucket, dayWords(coat.coatedOn))
}

/** The same in a line of a list. */
export function shortlyOn(screen: ScreenLine): string {
  const { stencil, coat } = screen
  if (stencil !== null || coat === null) return whatIsOn(screen) ?? ''
  return SCREENS_WORDS.coatedOn(shortDay(coat.coatedOn))
}

/** When a coat is dry and until when it is good, as far as that matters now. */
export function coatTimes({ coat, state, next }: ScreenLine): string | null {
  if (coat === null || state !== 'coated') return null
  const says = [
    next === 'let it dry' && coat.dryAt !== null
      ? SCREENS_WORDS.dryAt(clockText(new Date(coat.dryAt)))
      : '',
    coat.goodUntil === null ? '' : SCREENS_WORDS.goodUntil(dayWords(coat.goodUntil)),
  ]
  return says.filter((part) => part !== '').join(' ')
}
