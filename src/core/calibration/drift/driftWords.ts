import { smallNumber } from '../../units/smallNumber.ts'
import type { Evidence } from '../belief/evidence.ts'
import type { Kept } from '../belief/replay.ts'
import type { Cause } from './causes.ts'
import { type Confounded, confounded } from './confounded.ts'
import { byThing, type ThingKind, thingOf } from './witnesses.ts'

/** How a shop says its days, its things and its doses. */
export type DriftWords = Readonly<{
  /** `3 November` */
  dayName: (day: number) => string
  /** `the big lamp`, `90-48 yellow`; an empty name is the usual one's. */
  nameOf: (kind: ThingKind, name: string) => string
  /** `36`: rounded, on the unit's counter. */
  dose: (doseLu: number) => string
  /** Whether a test can still be made with a thing, as not with a bucket that is used up. */
  isThere?: ((kind: ThingKind, name: string) => boolean) | undefined
}>

/** What was found, to be said. */
export type DriftFound = Readonly<{
  cause: Cause
  steps: number
  groundLu: Readonly<{ before: number; after: number }>
  readings: readonly Evidence[]
  others: readonly Cause[]
  /** The next cause is more than half as likely: then no one thing is named. */
  isClose: boolean
}>

type Shop = Readonly<{ words: DriftWords; evidence: readonly Kept[] }>

/** A drift in the words of the room: what, since when and how much, what else, and how to tell. */
export function wordsFor(
  found: DriftFound,
  shop: Shop,
): Readonly<{ headline: string; sentence: string; others: readonly string[]; test: string }> {
  const apart = uncrossed(found, shop)
  return {
    headline: headlineOf({ ...found, isClose: found.isClose || apart !== null }, shop),
    sentence: sentenceOf(found, shop),
    others: found.others.map((cause) => otherwise(cause, shop)),
    test: apart?.test ?? testOf(found, shop),
  }
}

function headlineOf({ cause, steps, others: [next], isClose }: DriftFound, shop: Shop): string {
  const { words } = shop
  const { kind, name, day, each } = cause
  const light = steps > 0 ? 'more light' : 'less light'
  if (isClose && next !== undefined) {
    const either = `${otherwise(cause, shop)}, or ${otherwise(next, shop)}`
    return each ? `Screens differ: ${either}.` : `The ground wants ${light}: ${either}.`
  }
  switch (kind) {
    case 'lamp':
      return `Under ${words.nameOf('unit', name)} all wants ${light}.`
    case 'bucket':
      return isNewest(name, shop)
        ? `The new bucket wants ${light}.`
        : capital(`${words.nameOf('batch', name)} wants ${light}.`)
    case 'fabric':
      return capital(`${words.nameOf('fabric', name)} wants ${light}.`)
    case 'drying':
      return each
        ? 'Screens differ more than they did.'
        : `The screens of ${words.dayName(day)} wanted ${light}.`
    case 'reading mistake':
      return 'One reading stands alone.'
    case 'unknown':
      return `The ground wants ${light} than it did.`
  }
}

function sentenceOf(found: DriftFound, { words }: Shop): string {
  const { cause, groundLu, readings } = found
  const { kind, each } = cause
  const day = words.dayName(cause.day)
  const [before, after] = [words.dose(groundLu.before), words.dose(groundLu.after)]
  const seen = `seen on ${counted(readings)}`
  if (kind === 'reading mistake') {
    const [reading] = readings
    const what = reading === undefined ? 'reading' : SAID[reading.kind]
    return `The ${what} of ${day} says ${after}, where the readings around it say ${before}: look at it again, or strike it out.`
  }
  if (kind === 'drying' && each) {
    return `Since ${day} one screen wants more light than the next, as if not all had dried: ${seen}.`
  }
  const needs =
    before === after ? `a little ${found.steps > 0 ? 'more' : 'less'}` : `${after}, not ${before}`
  return kind === 'drying'
    ? `On ${day} the ground needed ${needs}, as if it had not dried well: ${seen}.`
    : `Since ${day} the ground needs ${needs}: ${seen}.`
}

const SAID = { wedge: 'wedge', strip: 'strip', outcome: 'screen' } as const

/** Another cause, as a thing. */
function otherwise({ kind, name, each }: Cause, shop: Shop): string {
  const { words } = shop
  switch (kind) {
    case 'lamp':
      return words.nameOf('unit', name)
    case 'bucket':
      return isNewest(name, shop) ? 'the new bucket' : words.nameOf('batch', name)
    case 'fabric':
      return `the fabric ${words.nameOf('fabric', name)}`
    case 'drying':
      return each ? 'screens that dried unevenly' : 'screens that had not dried'
    case 'reading mistake':
      return 'a reading that is wrong'
    case 'unknown':
      return 'a slow change of everything'
  }
}

const THINGS: Readonly<Partial<Record<Cause['kind'], ThingKind>>> = {
  lamp: 'unit',
  bucket: 'batch',
  fabric: 'fabric',
}

/** The two likeliest causes, where no test has crossed their things yet. */
function uncrossed({ cause, others }: DriftFound, { words, evidence }: Shop): Confounded | null {
  const [one, two] = [cause, others[0]].map((each) => each && THINGS[each.kind])
  if (one === undefined || two === undefined) return null
  const found = confounded(evidence, { words, isThere: words.isThere })
  return found.find(({ kinds }) => kinds.includes(one) && kinds.includes(two)) ?? null
}

/** The one test that tells the likeliest causes apart. */
function testOf({ cause, others }: DriftFound, { words, evidence }: Shop): string {
  const kinds = [cause.kind, ...others.map(({ kind }) => kind)]
  const used = (kind: ThingKind): readonly string[] =>
    [...new Set(evidence.map((reading) => thingOf(reading, kind)))].filter(
      (name) => words.isThere?.(kind, name) ?? true,
    )
  if (cause.kind === 'reading mistake' || kinds[1] === 'reading mistake') {
    return 'Lay a wedge on the next screen: if it says the same, it was no slip.'
  }
  if (cause.kind === 'drying' || kinds[1] === 'drying') {
    return 'Dry two screens overnight and wedge both tomorrow: if they agree with the old dose, it was the drying.'
  }
  if (kinds.includes('bucket') && used('batch').length > 1) {
    return 'Coat one screen from the old bucket and one from the new, wedge both within the hour.'
  }
  if (kinds.includes('lamp') && used('unit').length > 1) {
    const other = used('unit').find((name) => name !== cause.name) ?? ''
    return `Wedge the next screen under ${words.nameOf('unit', other)} as well, within the hour.`
  }
  if (kinds.includes('fabric') && used('fabric').length > 1) {
    const [one = '', two = ''] = used('fabric')
    return `Wedge one screen of ${words.nameOf('fabric', one)} and one of ${words.nameOf('fabric', two)} within the hour.`
  }
  return 'Wedge two screens within the hour: if both say the same, the new dose is right.'
}

function isNewest(batch: string, { evidence }: Shop): boolean {
  const dated = evidence.flatMap((reading) =>
    reading.day === undefined ? [] : [{ day: reading.day, batch: thingOf(reading, 'batch') }],
  )
  const firstDays = [...byThing(dated, (each) => each.batch)].map(([name, own]) => ({
    name,
    day: Math.min(...own.map(({ day }) => day)),
  }))
  return firstDays.length > 1 && firstDays.toSorted((a, b) => b.day - a.day)[0]?.name === batch
}

/** `one wedge and two screens` */
function counted(readings: readonly Evidence[]): string {
  const parts = (['wedge', 'strip', 'outcome'] as const).flatMap((kind) => {
    const times = readings.filter((reading) => reading.kind === kind).length
    if (times === 0) return []
    return [`${smallNumber(times)} ${SAID[kind]}${times === 1 ? '' : 's'}`]
  })
  const last = parts.at(-1) ?? 'nothing'
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`
}

function capital(sentence: string): string {
  return `${sentence[0]?.toUpperCase() ?? ''}${sentence.slice(1)}`
}
