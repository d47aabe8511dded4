import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { near } from '../units/near.testing.ts'
import { CAUSE_NAMES, CAUSES, isCause } from './causes.ts'
import { type ShopEvidence, signsOfShop } from './evidence.ts'
import { learnedBeliefs } from './learned.ts'
import { PUBLISHED_CASES, type PublishedCase } from './publishedCases.testing.ts'
import {
  bitsOf,
  rankCauses,
  type Signs,
  tellingQuestions,
  tellingTest,
  USUAL_BELIEFS,
} from './rank.ts'
import { SIGN_NAMES } from './signNames.ts'
import { isSign, SIGNS } from './signs.ts'
import { linkIn, tableWith, USUAL_TABLE } from './table.ts'

const signsOf = (each: { yes: readonly string[]; no?: readonly string[] }): Signs => ({
  yes: each.yes.filter(isSign),
  no: (each.no ?? []).filter(isSign),
})
const placeOf = (cause: string, signs: Signs): number =>
  rankCauses(signs).findIndex((ranked) => ranked.cause === cause) + 1

describe('thirty published cases, written down before the table', () => {
  test('oracle trouble-guides: the guide’s cause is among the first two in at least 27', () => {
    expect(PUBLISHED_CASES).toHaveLength(30)
    for (const { says, cause, yes, no = [] } of PUBLISHED_CASES) {
      const unknown = [cause, ...yes, ...no].filter((name) => !isCause(name) && !isSign(name))
      expect([says, unknown]).toEqual([says, []])
    }
    const missed = PUBLISHED_CASES.filter((each) => placeOf(each.cause, signsOf(each)) > 2)
    expect(missed.map(({ says }) => says).length).toBeLessThanOrEqual(3)
  })

  /** The cause's place from what is seen, after so many questions that the guide answers or not. */
  function placeAsked({ cause, yes, no = [] }: PublishedCase, questions: number): number {
    const isSeen = (name: string): boolean => isSign(name) && SIGNS[name].where !== 'known'
    const known = { yes: yes.filter(isSeen), no: no.filter(isSeen) }
    const unsure: string[] = []
    for (let at = 0; at < questions; at++) {
      const [asked] = tellingQuestions(rankCauses(known), { known, unsure, most: 1 })
      if (asked === undefined) break
      const to = yes.includes(asked.sign) ? known.yes : no.includes(asked.sign) ? known.no : unsure
      to.push(asked.sign)
    }
    return rankCauses(known).findIndex((ranked) => ranked.cause === cause) + 1
  }

  test('what is seen alone leads less often; two questions of its making make up for it', () => {
    const found = (questions: number): number =>
      PUBLISHED_CASES.filter((each) => placeAsked(each, questions) <= 2).length
    // 21 by the table as judged: heat, age and stray light look alike at the sink. The table was
    // not changed for this; an answer is the guide's own word, and “nobody knows” where it has none.
    expect(found(0)).toBeGreaterThanOrEqual(18)
    expect(found(0)).toBeLessThan(27)
    expect(found(2)).toBeGreaterThanOrEqual(27)
    expect(found(4)).toBeGreaterThanOrEqual(found(2))
  })
})

describe('ranking', () => {
  test('oracle naive-bayes: pinholes at the same place, by hand', () => {
    const [first, second] = rankCauses({ yes: ['pinholes', 'same place again'], no: [] })
    expect([first?.cause, second?.cause]).toEqual(['dust on the glass', 'not dry'])
    // 0.06 * 0.85 * 0.55 against 0.13 * 0.3 * 0.02
    near((first?.chance ?? 0) / (second?.chance ?? 1), 0.02805 / 0.00078, {
      within: 1e-9,
      because: 'closed form',
    })
    expect(first?.for).toEqual(['pinholes', 'same place again'])
    expect(second?.for).toEqual(['pinholes'])
  })

  test('invariant: chances of all causes make 1, and a sign never hurts the cause it goes with most', () => {
    const some = fc.uniqueArray(fc.constantFrom(...SIGN_NAMES), { maxLength: 6 })
    fc.assert(
      fc.property(some, some, (yes, maybe) => {
        const no = maybe.filter((sign) => !yes.includes(sign))
        const ranked = rankCauses({ yes, no })
        near(
          ranked.reduce((sum, { chance }) => sum + chance, 0),
          1,
          { within: 1e-9, because: 'rounding' },
        )
        const open = SIGN_NAMES.find((sign) => !yes.includes(sign) && !no.includes(sign))
        if (open === undefined) return
        const chance = USUAL_BELIEFS.chanceOf
        const most = CAUSE_NAMES.reduce((a, b) => (chance(open, b) > chance(open, a) ? b : a))
        const before = ranked.find(({ cause }) => cause === most)?.chance ?? 0
        const after = rankCauses({ yes: [...yes, open], no }).find(({ cause }) => cause === most)
        expect(after?.chance).toBeGreaterThanOrEqual(before - 1e-12)
      }),
      { seed: 19, numRuns: 60 },
    )
  })

  test('the shares make 1, every chance lies between 0 and 1, each cause says what to do', () => {
    near(
      CAUSE_NAMES.reduce((sum, cause) => sum + CAUSES[cause].share, 0),
      1.1,
      {
        within: 0.1,
        because: 'judged to two figures; ranking divides by their sum',
      },
    )
    for (const cause of CAUSE_NAMES) {
      const { now, next, signs } = CAUSES[cause]
      expect([cause, now.length > 10, next.length > 10]).toEqual([cause, true, true])
      const odd = Object.values(signs).filter((chance) => !(chance > 0 && chance < 1))
      expect([cause, odd]).toEqual([cause, []])
    }
  })
})

describe('the one test', () => {
  test('oracle shannon1948: a coin that decides tells one bit, one that does not tells none', () => {
    expect(bitsOf(0.5, { one: 1, other: 0 })).toBe(1)
    expect(bitsOf(0.3, { one: 0.4, other: 0.4 })).toBeCloseTo(0, 12)
    // a clean channel with 1 error in 10 and even odds: 1 - H(0.1) = 0.531004…
    near(bitsOf(0.5, { one: 0.9, other: 0.1 }), 0.5310044064107188, {
      within: 1e-12,
      because: 'closed form',
    })
  })

  test('thin marks stay shut: look through the film first, as it takes a minute', () => {
    const known: Signs = { yes: ['thin marks shut', 'marks narrower'], no: [] }
    const ranked = rankCauses(known)
    expect(
      ranked
        .slice(0, 2)
        .map(({ cause }) => cause)
        .toSorted(),
    ).toEqual(['too much light', 'weak film'])
    expect(tellingTest(ranked, { known })).toMatchObject({
      sign: 'film pale',
      yes: 'weak film',
      no: 'too much light',
    })
  })

  test('a test that was made is not asked for again; after it the first cause is surer', () => {
    const known: Signs = { yes: ['thin marks shut'], no: [] }
    const ranked = rankCauses(known)
    const asked = tellingTest(ranked, { known })
    const after: Signs = { yes: [...known.yes, asked?.sign ?? 'veil'], no: [] }
    const then = rankCauses(after)
    expect(then[0]?.cause).toBe(asked?.yes)
    expect(then[0]?.chance).toBeGreaterThan(ranked[0]?.chance ?? 1)
    expect(tellingTest(then, { known: after })?.sign).not.toBe(asked?.sign)
  })
})

describe('what a shop confirms', () => {
  test('oracle beta-counts: shares and links move by counts on top of the table', () => {
    const signs: Signs = { yes: ['veil'], no: ['slime inside'] }
    const learned = learnedBeliefs([
      { cause: 'ink attacks it', signs },
      { cause: 'ink attacks it', signs },
    ])
    const shares = CAUSE_NAMES.reduce((sum, cause) => sum + CAUSES[cause].share, 0)
    near(learned.shareOf('ink attacks it'), ((0.02 / shares) * 20 + 2) / 22, {
      within: 1e-12,
      because: 'closed form',
    })
    near(learned.chanceOf('veil', 'ink attacks it'), (0.04 * 8 + 2) / 10, {
      within: 1e-12,
      because: 'closed form',
    })
    near(learned.chanceOf('slime inside', 'ink attacks it'), (0.03 * 8) / 10, {
      within: 1e-12,
      because: 'closed form',
    })
    expect(learned.chanceOf('veil', 'weak film')).toBe(USUAL_BELIEFS.chanceOf('veil', 'weak film'))
  })

  test('after ten confirmed failures of a kind that the table thinks rare, it comes first', () => {
    const signs: Signs = { yes: ['thin marks shut', 'slow to open'], no: [] }
    const cause = 'coated too long ago' as const
    expect(placeOf(cause, signs)).toBeGreaterThan(1)
    const beliefs = learnedBeliefs(Array.from({ length: 10 }, () => ({ cause, signs })))
    expect(rankCauses(signs, { beliefs })[0]?.cause).toBe(cause)
  })
})

describe('what a shop changes in the table', () => {
  const water = { says: 'Rust in the water', share: 0.05, now: 'Wait.', next: 'Filter it.' }
  const rusty = {
    kind: 'cause',
    cause: 'own 1',
    says: { ...water, isUsed: true },
  } as const
  const veiled = { kind: 'link', cause: 'own 1', sign: 'veil', chance: 0.9, isSeen: true } as const

  test('no rows, no change; a cause of its own is ranked by its share and links', () => {
    expect(tableWith([])).toEqual(USUAL_TABLE)
    const table = tableWith([rusty, veiled])
    expect([linkIn(table, 'veil', 'own 1'), linkIn(table, 'mirrored', 'own 1')]).toEqual([
      0.9, 0.002,
    ])
    const signs: Signs = { yes: ['veil'], no: [] }
    const chance = (cause: string): number =>
      rankCauses(signs, { beliefs: learnedBeliefs([], table) }).find((each) => each.cause === cause)
        ?.chance ?? 0
    // the shares times the links of the two: 0.05 x 0.9 against 0.06 x 0.85
    near(chance('own 1') / chance('rinsed too little'), 0.045 / 0.051, {
      within: 1e-9,
      because: 'closed form',
    })
  })

  test('what does not happen here is never named, and a link without its cause is nothing', () => {
    const { now, next, says, share } = CAUSES['poor contact']
    const none = { says, share, now, next, isUsed: false }
    const table = tableWith([{ kind: 'cause', cause: 'poor contact', says: none }, veiled])
    expect(table.causes.has('poor contact')).toBe(false)
    expect(table.causes.size).toBe(USUAL_TABLE.causes.size - 1)
    const ranked = rankCauses(
      { yes: ['vacuum low'], no: [] },
      { beliefs: learnedBeliefs([], table) },
    )
    expect(ranked.map(({ cause }) => cause)).not.toContain('poor contact')
  })

  test('oracle beta-counts: what the shop saw weighs more than what was judged', () => {
    const confirmed = [{ cause: 'own 1', signs: { yes: [], no: ['veil'] } }]
    const moved = (isSeen: boolean): number =>
      learnedBeliefs(confirmed, tableWith([rusty, { ...veiled, isSeen }])).chanceOf('veil', 'own 1')
    near(moved(false), (0.9 * 8) / 9, { within: 1e-12, because: 'closed form' })
    near(moved(true), (0.9 * 24) / 25, { within: 1e-12, because: 'closed form' })
  })

  test('a sign of its own is asked for like the others', () => {
    const sign = {
      where: 'known',
      says: 'The tap ran brown.',
      elsewhere: 0.02,
      test: null,
    } as const
    const table = tableWith([
      rusty,
      { kind: 'sign', sign: 'own 2', says: sign },
      { kind: 'link', cause: 'own 1', sign: 'own 2', chance: 0.95, isSeen: true },
    ])
    const beliefs = learnedBeliefs([], table)
    const known: Signs = { yes: ['veil'], no: [] }
    const asked = tellingQuestions(rankCauses(known, { beliefs }), { known, beliefs, most: 3 })
    expect(asked.map(({ sign: name }) => name)).toContain('own 2')
  })
})

describe('what the shop’s own records tell', () => {
  const NOTHING: ShopEvidence = {
    driedMin: null,
    cabinetMin: null,
    humidityShare: null,
    coatedDays: null,
    goodForDays: null,
    bucketPastDate: null,
    countGot: null,
    plannedCount: null,
    plannedLow: null,
    plannedHigh: null,
    vacuum: null,
    lampShare: null,
    lately: [],
  }
  const told = (evidence: Partial<ShopEvidence>): Readonly<Record<string, string>> =>
    Object.fromEntries(signsOfShop({ ...NOTHING, ...evidence }).map(({ sign, is }) => [sign, is]))

  test('nothing known, nothing told', () => {
    expect(signsOfShop(NOTHING)).toEqual([])
  })

  test('drying is short by this room’s own cabinet, and neither in between', () => {
    expect(told({ driedMin: 20, cabinetMin: 40 })).toEqual({ 'dried short': 'yes' })
    expect(told({ driedMin: 50, cabinetMin: 40 })).toEqual({})
    expect(told({ driedMin: 200, humidityShare: 0.62 })).toEqual({
      'dried short': 'no',
      'damp air': 'yes',
    })
    expect(signsOfShop({ ...NOTHING, driedMin: 20, cabinetMin: 40 })[0]?.because).toBe(
      'It lay 20 minutes from coat to lamp; this room takes 40 minutes.',
    )
  })

  test('dose against its plan, and how wide the plan is: 36 to 47 is less than a step', () => {
    const planned = { plannedCount: 42, plannedLow: 36, plannedHigh: 47 }
    expect(told({ ...planned, countGot: 30 })).toEqual({
      'under the dose': 'yes',
      'over the dose': 'no',
      'little latitude': 'yes',
    })
    expect(told({ ...planned, plannedHigh: 80, countGot: 44 })).toEqual({
      'under the dose': 'no',
      'over the dose': 'no',
      'little latitude': 'no',
    })
  })

  test('age, vacuum, lamp and the last three screens', () => {
    expect(told({ coatedDays: 12, bucketPastDate: true, vacuum: 'low', lampShare: 0.8 })).toEqual({
      'coating old': 'yes',
      'bucket old': 'yes',
      'vacuum low': 'yes',
      'lamp down': 'yes',
    })
    expect(told({ coatedDays: 12, goodForDays: 28, lampShare: 0.9 })).toEqual({})
    expect(told({ lately: ['failed', 'good', 'failed', 'good'] })).toEqual({
      'every screen lately': 'yes',
    })
    expect(told({ lately: ['good', 'good', 'good'] })).toEqual({ 'every screen lately': 'no' })
  })
})
