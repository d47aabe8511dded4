import type { Circumstances } from '../belief/evidence.ts'
import { isNewLamp } from '../belief/jump.ts'
import type { Kept } from '../belief/replay.ts'
import type { DriftWords } from './driftWords.ts'
import { type Span, spanOf } from './span.ts'
import { THING_KINDS, type ThingKind, thingOf } from './witnesses.ts'

/** What the tests so far cannot tell apart, and the one that would. */
export type Confounded = Readonly<{
  /** Of the things of these kinds any may be what differs. */
  kinds: readonly ThingKind[]
  sentence: string
  /** One more test, made like this, tells. */
  cross: Pick<Circumstances, 'unit' | 'emulsion' | 'fabric'>
  test: string
}>

type Options = Readonly<{
  words: Pick<DriftWords, 'nameOf'>
  /** Whether a thing can still be used; left out: all can, save lamps that were replaced. */
  isThere?: ((kind: ThingKind, name: string) => boolean) | undefined
}>

/** A lamp, a bucket and a fabric that were tested together. */
type SetUp = Readonly<Record<ThingKind, string>>

/**
 * Differences between lamps, buckets and fabrics that wedges and strips cannot tell from each other.
 *
 * A test sees the sum of its lamp, bucket and fabric. So two of a kind can be compared when their
 * difference is a sum of tests, some of them taken off: when it lies in the span of the set-ups that
 * were tested. A test that adds to that span tells something new; of those the one that keeps most of
 * the newest set-up is named.
 *
 * @returns one after another, each as if the tests named before it had been made
 * @source estimable-contrast
 * @limits that the ground wanders between two tests is left aside
 */
export function confounded(evidence: readonly Kept[], options: Options): readonly Confounded[] {
  const tested = setUpsOf(evidence)
  const newest = tested.at(-1)
  if (newest === undefined) return []
  const candidates = candidatesOf(tested, { ...options, newest })
  const found: Confounded[] = []
  let known = tested
  let before = spanOf(known.map(columnsOf))
  for (const cross of candidates) {
    if (before.has(columnsOf(cross))) continue
    const after = spanOf([...known, cross].map(columnsOf))
    const pairs = pairsTold(known, { cross, before, after })
    known = [...known, cross]
    before = after
    if (pairs.length > 1) found.push(told(pairs, { cross, tested, words: options.words }))
  }
  return found
}

/** Set-ups of wedges and strips, each once, where it was tested last; a new lamp is another thing. */
function setUpsOf(evidence: readonly Kept[]): readonly SetUp[] {
  const tests = evidence
    .filter(({ kind, struckOut }) => kind !== 'outcome' && struckOut !== true)
    .toSorted((a, b) => (a.day ?? 0) - (b.day ?? 0))
  const lamps = new Map<string, { number: number; hours: number; fitted: number | undefined }>()
  const known = new Map<string, SetUp>()
  for (const test of tests) {
    const name = thingOf(test, 'unit')
    const lamp = lamps.get(name) ?? { number: 0, hours: 0, fitted: test.lampFitted }
    lamps.set(name, lamp)
    const { lampHours: now = lamp.hours, lampFitted = lamp.fitted } = test
    if (lampFitted !== lamp.fitted || isNewLamp({ before: lamp.hours, now })) lamp.number++
    lamp.hours = now
    lamp.fitted = lampFitted
    const unit = `${lamp.number} ${name}`
    const setUp = { unit, batch: thingOf(test, 'batch'), fabric: thingOf(test, 'fabric') }
    const key = JSON.stringify(setUp)
    known.delete(key)
    known.set(key, setUp)
  }
  return [...known.values()]
}

/** What could be tested: what is most like the newest set-up first. */
function candidatesOf(
  tested: readonly SetUp[],
  { newest, isThere = () => true }: Options & Readonly<{ newest: SetUp }>,
): readonly SetUp[] {
  const there = (kind: ThingKind): readonly string[] => {
    const names = [...new Set(tested.toReversed().map((setUp) => setUp[kind]))]
    const able = names.filter((name) => {
      return isThere(kind, plain(kind, name)) && (kind !== 'unit' || isLastLamp(name, names))
    })
    return [...new Set([newest[kind], ...able])]
  }
  const all = there('unit').flatMap((unit) =>
    there('batch').flatMap((batch) => there('fabric').map((fabric) => ({ unit, batch, fabric }))),
  )
  const unlike = (setUp: SetUp): number =>
    THING_KINDS.filter((kind) => setUp[kind] !== newest[kind]).length
  return all.toSorted((a, b) => unlike(a) - unlike(b))
}

/** The two of each kind that one more test makes comparable, the one tested longer ago first. */
function pairsTold(
  tested: readonly SetUp[],
  { cross, before, after }: Readonly<{ cross: SetUp; before: Span; after: Span }>,
): readonly Pair[] {
  return THING_KINDS.flatMap((kind) => {
    const names = [...new Set(tested.toReversed().map((setUp) => setUp[kind]))]
    const other = names.find((name) => {
      const difference = new Map([
        [column(kind, cross[kind]), 1],
        [column(kind, name), -1],
      ])
      return name !== cross[kind] && !before.has(difference) && after.has(difference)
    })
    if (other === undefined) return []
    const pair = [other, cross[kind]].sort((a, b) => names.indexOf(b) - names.indexOf(a))
    return [{ kind, names: pair }]
  })
}

type Pair = Readonly<{ kind: ThingKind; names: readonly string[] }>

function told(
  pairs: readonly Pair[],
  {
    cross,
    tested,
    words: { nameOf },
  }: Readonly<{ cross: SetUp; tested: readonly SetUp[] }> & Pick<Options, 'words'>,
): Confounded {
  const name = (kind: ThingKind, thing: string): string => nameOf(kind, plain(kind, thing))
  const both = pairs.map(({ kind, names: [a = '', b = ''] }) =>
    kind === 'unit' && plain('unit', a) === plain('unit', b)
      ? `the old and the new light of ${name('unit', a)}`
      : `${name(kind, a)} and ${name(kind, b)}`,
  )
  const several = (kind: ThingKind): boolean =>
    new Set(tested.map((setUp) => plain(kind, setUp[kind]))).size > 1
  const of = several('fabric') ? ` of ${name('fabric', cross.fabric)}` : ''
  const from = several('batch') ? ` coated from ${name('batch', cross.batch)}` : ''
  const under = several('unit') || pairs.some(({ kind }) => kind === 'unit')
  const { unit, batch, fabric } = cross
  return {
    kinds: pairs.map(({ kind }) => kind),
    sentence: `Whether ${both.join(' differ, or ')} do, cannot be told: no test has crossed them.`,
    cross: {
      unit: plain('unit', unit) || undefined,
      emulsion: batch || undefined,
      fabric: fabric || undefined,
    },
    test: `Wedge one screen${of}${from}${under ? ` under ${name('unit', unit)}` : ''}.`,
  }
}

function columnsOf(setUp: SetUp): ReadonlyMap<string, number> {
  return new Map(THING_KINDS.map((kind) => [column(kind, setUp[kind]), 1]))
}

function column(kind: ThingKind, name: string): string {
  return `${kind} ${name}`
}

/** A unit's name without the number of its lamp. */
function plain(kind: ThingKind, name: string): string {
  return kind === 'unit' ? name.slice(name.indexOf(' ') + 1) : name
}

function isLastLamp(name: string, names: readonly string[]): boolean {
  const number = Number.parseInt(name, 10)
  return names.every((other) => {
    return plain('unit', other) !== plain('unit', name) || Number.parseInt(other, 10) <= number
  })
}
