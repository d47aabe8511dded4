import { feeEach, outlook, weekOfTerm } from '../core/supply/supply.ts'
import { dayOfIso } from './calendarDay.ts'
import { dateWords } from './papers/dayWords.ts'
import { moneyText } from './printPlanNumbers.ts'

/** A sentence of the room and the facts behind it. */
export type Said = Readonly<{ says: string; look: boolean; facts: readonly string[] }>

type Supply = Readonly<{
  name: string
  inHand: number
  unit: string
  perWeek: number
  weeksToCome: number
  price: number | null
  perCoat: number | null
}>

export type TermFacts = Readonly<{ name: string; firstDay: string; weeks: number; people: number }>

type Reckoning = Readonly<{
  today: string
  /** By ISO 4217; null: the shop has not said. */
  currency: string | null
}>

/** Something that is used up: how long it lasts, and when to order. */
export function supplySaid(
  supply: Supply,
  { term, today, currency }: Reckoning & Readonly<{ term: TermFacts | null }>,
): Said {
  const { name, inHand, unit, perWeek, weeksToCome, price, perCoat } = supply
  const weeks = term?.weeks ?? Number.POSITIVE_INFINITY
  const weekNow = term === null ? 1 : weekNowOf(term, today)
  const { weeksLeft, orderByWeek, isDue } = outlook(supply, { weekNow, weeks })
  const lasts = Number.isFinite(weeksLeft)
    ? `, enough for ${count(Math.floor(weeksLeft), 'week')}`
    : ''
  const order =
    orderByWeek === null
      ? ''
      : isDue
        ? ': order it now'
        : term === null
          ? `: order it within ${count(Math.max(0, orderByWeek - weekNow), 'week')}`
          : orderByWeek < 1
            ? `: order it ${count(1 - orderByWeek, 'week')} before the ${term.name} begins`
            : `: order by week ${orderByWeek} of the ${term.name}`
  return {
    says: `${capital(name)}: ${plain(inHand)} ${unit} in hand${lasts}${order}.`,
    look: isDue,
    facts: [
      `${plain(perWeek)} ${unit} a week; ${count(weeksToCome, 'week')} from order to shelf.`,
      ...(price === null ? [] : [`${moneyText(price, currency)} for one of its units.`]),
      ...(perCoat === null ? [] : [`About ${Math.floor(inHand / perCoat)} coats left.`]),
    ],
  }
}

/**
 * The term by whose weeks one counts on a day: the one that is on, the last begun of several, else
 * the next; null where none is to come.
 */
export function termOn(terms: readonly TermFacts[], today: string): TermFacts | null {
  const weekOf = (term: TermFacts): number => weekNowOf(term, today)
  const begun = terms
    .filter((term) => weekOf(term) >= 1 && weekOf(term) <= term.weeks)
    .toSorted((a, b) => b.firstDay.localeCompare(a.firstDay))
  const next = terms
    .filter((term) => weekOf(term) < 1)
    .toSorted((a, b) => a.firstDay.localeCompare(b.firstDay))
  return begun[0] ?? next[0] ?? null
}

/** A term, and what its supplies come to for each of its people. */
export function termSaid(
  term: TermFacts,
  { supplies, today, currency }: Reckoning & Readonly<{ supplies: readonly Supply[] }>,
): Said {
  const { name, firstDay, weeks, people } = term
  const week = weekNowOf(term, today)
  const fee = feeEach(supplies, term)
  const where =
    week < 1
      ? `begins on ${dateWords(firstDay)}`
      : week > weeks
        ? 'is over'
        : `week ${week} of ${weeks}`
  return {
    says: `${capital(name)}: ${where}, ${people === 1 ? '1 person' : `${people} people`}${fee === null ? '' : `; supplies come to ${moneyText(fee, currency)} each`}.`,
    look: false,
    facts: [
      `From ${dateWords(firstDay)} for ${count(weeks, 'week')}.`,
      ...(fee === null
        ? ['No price of a supply is known, so there is no fee.']
        : [
            'The fee is use a week times price times weeks, shared by all; inks and papers are with their tickets.',
          ]),
    ],
  }
}

/** A bucket: how old, how long it is good, how many coats came of it. */
export function batchSaid({
  emulsion,
  name,
  mixedOn,
  expiresOn,
  coats,
  today,
}: Readonly<{
  emulsion: string
  name: string
  /** Days as 2026-11-28. */
  mixedOn: string
  expiresOn: string | null
  coats: number
  today: string
}>): Said {
  const old = days(today, mixedOn)
  const left = expiresOn === null ? null : days(expiresOn, today)
  const good =
    left === null
      ? ''
      : left < 0
        ? `, past its date by ${count(-left, 'day')}: coat no more from it`
        : `, good for ${count(left, 'day')} more`
  return {
    says: `${capital(emulsion)}: ${name}, mixed ${old === 0 ? 'today' : `${count(old, 'day')} ago`}${good}.`,
    look: left !== null && left < 7,
    facts: [
      `${coats === 0 ? 'No coat' : count(coats, 'coat')} came of it so far.`,
      expiresOn === null
        ? 'Nobody said until when it is good.'
        : `Good until ${dateWords(expiresOn)}.`,
    ],
  }
}

/** Cool-downs of a lamp that were kept and broken, and its hours. */
export function lampSaid({
  unit,
  hours,
  kept,
  broken,
  fittedOn,
  glass,
}: Readonly<{
  unit: string
  hours: number | null
  kept: number
  broken: number
  fittedOn: string | null
  glass: string | null
}>): Said {
  const cooled =
    kept + broken === 0
      ? ''
      : `; its cool-down was kept ${times(kept)}${broken === 0 ? '' : ` and broken ${times(broken)}`}`
  return {
    says: `${capital(unit)} ${hours === null ? 'has no lamp on record' : `has burned ${Math.round(hours)} hours`}${cooled}.`,
    look: broken > kept,
    facts: [
      ...(fittedOn === null ? [] : [`The lamp was fitted on ${dateWords(fittedOn)}.`]),
      ...(glass === null ? [] : [`Its glass is ${glass}.`]),
      'A cool-down is kept when the bench’s last step is done ten minutes after the lamp went out.',
    ],
  }
}

/** How long screens really took to dry. */
export function dryingSaid(minutes: readonly number[]): Said {
  if (minutes.length === 0) {
    return {
      says: 'Nobody has felt yet how long screens take to dry here.',
      look: false,
      facts: [
        'It is noted when somebody says that a coat is dry, on its screen’s page or for many at once.',
      ],
    }
  }
  const order = minutes.toSorted((a, b) => a - b)
  const at = (share: number): number => order[Math.floor(share * (order.length - 1))] ?? 0
  return {
    says: `Screens were dry after ${duration(at(0.5))}: the middle of ${minutes.length} that somebody felt.`,
    look: false,
    facts: [`The quickest ${duration(at(0))}, the slowest ${duration(at(1))}.`],
  }
}

export function capital(name: string): string {
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}`
}

export function count(value: number, word: string): string {
  return `${plain(value)} ${word}${value === 1 ? '' : 's'}`
}

function weekNowOf({ firstDay }: TermFacts, today: string): number {
  return weekOfTerm({ firstDay: dayOfIso(firstDay) ?? 0, day: dayOfIso(today) ?? 0 })
}

function days(later: string, earlier: string): number {
  return (dayOfIso(later) ?? 0) - (dayOfIso(earlier) ?? 0)
}

function times(value: number): string {
  return value === 0 ? 'never' : value === 1 ? 'once' : `${value} times`
}

function duration(minutes: number): string {
  return minutes < 90
    ? count(Math.round(minutes), 'minute')
    : count(Math.round(minutes / 6) / 10, 'hour')
}

function plain(value: number): string {
  return String(Math.round(value * 100) / 100)
}
