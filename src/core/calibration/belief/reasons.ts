import { plainName } from '../../units/plainName.ts'
import type { Marks } from './evidence.ts'
import type { DayTaken } from './jump.ts'
import { filmEntry, groundEntries, marksEntry } from './names.ts'
import type { Question } from './question.ts'
import { type Belief, type Entry, type EntryKind, lastHeard, SHARED } from './state.ts'
import { entryOf, timesHeard } from './sureness.ts'

/** Why a dose is what it is, or why it is in doubt, in one sentence. */
export type Reason = Readonly<{ about: EntryKind | 'base' | 'jump'; sentence: string }>

/** A jump is spoken of when it is more likely than not, and for so many days. */
const JUMP_DAYS = 30
/** Without a reading for longer than this, that is a reason by itself. */
const STALE_DAYS = 30
/** One stop is twice the light: log10 2 of density. */
const STOP = Math.log10(2)
/** Normal deviate that leaves 5 % on either side. */
const NINETY_PERCENT = 1.645

/**
 * The reasons of a dose, from the evidence that there is: what was read and when, what nobody has
 * tried, what changed.
 *
 * @param days what each day did to the belief, as `replay` gives it, for sudden changes
 */
export function reasonsFor(
  belief: Belief,
  question: Question,
  { days = [] }: Readonly<{ days?: readonly DayTaken[] }> = {},
): readonly Reason[] {
  const today = question.day ?? belief.day
  const all = belief.entries[SHARED.hold]
  if (all === undefined || timesHeard(all) === 0) {
    const sentence = `A first guess: nobody has told us yet how ${spoken(question.marks)} here.`
    return [{ about: 'medium', sentence }, ...baseReason(belief, question)]
  }
  const ground = groundEntries(belief, question)
  return [
    ...question.marks.flatMap((marks) => marksReasons(belief, { question, marks, today })),
    ...wedgeReasons(entryOf(belief, ground.unit), today),
    ...ownReasons(belief, question),
    ...Object.values(ground).flatMap((named) => newnessReason(entryOf(belief, named))),
    ...baseReason(belief, question),
    ...jumpReasons(days, today),
    ...staleReason(all, today),
  ]
}

function marksReasons(
  belief: Belief,
  { question, marks, today }: Readonly<{ question: Question; marks: Marks; today: number | null }>,
): readonly Reason[] {
  if ('density' in marks) {
    const sentence = `This film was read: its weakest mark counts as ${marks.density.toFixed(2)} D.`
    return [{ about: 'read film', sentence }]
  }
  const { heard } = entryOf(belief, marksEntry(marks, question))
  const medium = plainName(marks.medium)
  const { strip, outcome } = heard
  if (strip.times + outcome.times === 0) {
    const sentence = `A first guess: nobody has told us yet how ${medium} comes out here.`
    return [{ about: 'medium', sentence }]
  }
  const behind = [counted(outcome.times, 'screen'), counted(strip.times, 'strip')]
  const told = behind.filter((part) => part !== '').join(' and ')
  const newest = since(lastHeard(heard), today)
  const when = newest === null ? '' : `, the newest ${newest}`
  const stand = strip.times + outcome.times === 1 ? 'stands' : 'stand'
  const sentence = `${told} in ${medium} ${stand} behind this${when}.`
  return [{ about: 'medium', sentence: sentence[0]?.toUpperCase() + sentence.slice(1) }]
}

function wedgeReasons(unit: Entry, today: number | null): readonly Reason[] {
  if (timesHeard(unit) === 0) return []
  const { wedge } = unit.heard
  if (wedge.times === 0) {
    return [{ about: 'unit', sentence: 'No wedge has been read under this lamp yet.' }]
  }
  const ago = since(wedge.lastDay ?? Number.NEGATIVE_INFINITY, today)
  const sentence = ago === null ? 'The last wedge has no date.' : `Last wedge ${ago}.`
  return [{ about: 'unit', sentence }]
}

/** What this very screen or this very film has told already. */
function ownReasons(belief: Belief, question: Question): readonly Reason[] {
  const { screen = '', film = '' } = question
  const reasons: Reason[] = []
  if (screen !== '') {
    const own = entryOf(belief, groundEntries(belief, question).screen)
    if (own.heard.wedge.times > 0) {
      reasons.push({ about: 'screen', sentence: 'There is a wedge on this very screen.' })
    }
  }
  if (film !== '' && timesHeard(entryOf(belief, filmEntry(question))) > 0) {
    reasons.push({ about: 'film', sentence: 'This film has been on a screen before.' })
  }
  return reasons
}

const NEWNESS: Readonly<Partial<Record<EntryKind, string>>> = {
  unit: 'Nothing has been read under this lamp yet',
  batch: 'This bucket is new',
  fabric: 'This fabric is new to us',
  recipe: 'This way of coating is new to us',
}

function newnessReason(entry: Entry): readonly Reason[] {
  const { kind, prior } = entry
  const newness = NEWNESS[kind]
  if (newness === undefined || timesHeard(entry) > 0) return []
  const more = prior.mean > 0 ? ` about ${times(prior.mean)} times the light,` : ''
  const sentence = `${newness}: expect${more} plus or minus ${stopWords(NINETY_PERCENT * prior.sd)}.`
  return [{ about: kind, sentence }]
}

function baseReason(belief: Belief, { baseDensity }: Question): readonly Reason[] {
  const shift = (baseDensity ?? belief.shop.usualBaseDensity) - belief.shop.usualBaseDensity
  if (Math.abs(shift) < 0.005) return []
  const how = shift > 0 ? 'dims the lamp more' : 'dims the lamp less'
  const sentence = `This film base ${how} than the usual one: every dose is ${times(shift)} times as large.`
  return [{ about: 'base', sentence }]
}

function jumpReasons(days: readonly DayTaken[], today: number | null): readonly Reason[] {
  return days.flatMap(({ day, jump, jumpChance }) => {
    if (day === null || today === null || jumpChance < 0.5) return []
    if (day > today || day < today - JUMP_DAYS) return []
    const way = jump > 0 ? 'more' : 'less'
    const sentence =
      `Something changed before the readings of ${since(day, today)}: ` +
      `the ground wants ${way} light, about ${times(jump)} times as much.`
    return [{ about: 'jump' as const, sentence }]
  })
}

function staleReason(all: Entry, today: number | null): readonly Reason[] {
  const last = lastHeard(all.heard)
  if (today === null || !Number.isFinite(last) || today - last <= STALE_DAYS) return []
  const sentence = `Nothing has been read for ${Math.floor(today - last)} days: the lamp may have moved on.`
  return [{ about: 'hold', sentence }]
}

/**
 * A distance on the dose scale as printers say it: `a third of a stop`.
 *
 * @param distance D, above 0
 */
export function stopWords(distance: number): string {
  const stops = distance / STOP
  const nearest = STOPS.reduce((best, next) =>
    Math.abs(Math.log(next.stops / stops)) < Math.abs(Math.log(best.stops / stops)) ? next : best,
  )
  return nearest.words
}

const STOPS = [
  { stops: 1 / 8, words: 'an eighth of a stop' },
  { stops: 1 / 4, words: 'a quarter of a stop' },
  { stops: 1 / 3, words: 'a third of a stop' },
  { stops: 1 / 2, words: 'half a stop' },
  { stops: 2 / 3, words: 'two thirds of a stop' },
  { stops: 1, words: 'a whole stop' },
  { stops: 3 / 2, words: 'a stop and a half' },
  { stops: 2, words: 'two stops' },
] as const

/** `printed film comes out`, `ink and pencil come out`, `anything comes out`. */
function spoken(marks: readonly Marks[]): string {
  const media = marks.flatMap((each) => ('density' in each ? [] : [plainName(each.medium)]))
  if (media.length === 0) return 'anything comes out'
  return `${media.join(' and ')} ${media.length > 1 ? 'come' : 'comes'} out`
}

function counted(number: number, thing: string): string {
  if (number === 0) return ''
  return number === 1 ? `one ${thing}` : `${number} ${thing}s`
}

/** Days between, as people say it; null where a day is not known or still to come. */
function since(day: number, today: number | null): string | null {
  if (today === null || !Number.isFinite(day) || day > today) return null
  const days = Math.floor(today) - Math.floor(day)
  if (days === 0) return 'today'
  return days === 1 ? 'yesterday' : `${days} days ago`
}

/** How many times the light a shift of density is. */
function times(shift: number): string {
  return (10 ** shift).toFixed(shift > 1 ? 0 : 1)
}
