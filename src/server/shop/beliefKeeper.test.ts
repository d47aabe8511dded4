import { describe, expect, test } from 'vitest'
import { type Kept, replay } from '../../core/calibration/belief/replay.ts'
import type { Belief } from '../../core/calibration/belief/state.ts'
import { density, lu } from '../../core/units/quantity.ts'
import { randomFrom } from '../../demo/random.ts'
import { type Believed, beliefKeeper } from './beliefKeeper.ts'
import type { EveningShelf, Shelved } from './eveningShelf.ts'

const SHOP = { usualBaseDensity: density(0.15), secondsUnits: [] }
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
const never = (): void => {
  throw new Error('nobody was told to wait')
}

/** Half a year: every third day a wedge, and a screen on the day after. */
function halfAYear(): readonly Kept[] {
  const random = randomFrom(11)
  return Array.from({ length: 120 }, (_, at): Kept => {
    const day = Math.floor(1.5 * at)
    const common = { unit: 'lamp', emulsion: `bucket ${Math.floor(day / 60)}`, day }
    if (at % 2 === 1) {
      const doseLu = lu(40 + 20 * random.share())
      return { ...common, kind: 'outcome', marks: { medium: 'soft pencil' }, doseLu, grade: 'good' }
    }
    const lastSolidStep = 5 + Math.floor(2 * random.share())
    return { ...common, kind: 'wedge', doseLu: lu(60), wedge: WEDGE, lastSolidStep }
  })
}

const numbers = ({ gaussian, day }: Belief): unknown => [day, [...gaussian.mean], [...gaussian.cov]]
const wholeOf = (evidence: readonly Kept[], until?: number): unknown =>
  numbers(replay(evidence, { shop: SHOP, ...(until === undefined ? {} : { until }) }).belief)

describe('the belief is that of a whole replay, to the last bit', () => {
  const evidence = halfAYear()
  const struck = (at: number): readonly Kept[] =>
    evidence.map((each, index) => (index === at ? { ...each, struckOut: true } : each))

  test.each([
    ['one more today', [...evidence, { ...evidence.at(-1), grade: 'filling' } as Kept]],
    ['one struck out of the first week', struck(3)],
    ['one struck out of the last', struck(118)],
    ['one told of long ago', [{ ...evidence[40], lastSolidStep: 4 } as Kept, ...evidence]],
    ['one without a date', [{ ...evidence[40], day: undefined }, ...evidence]],
    ['all taken away but the first ten', evidence.slice(0, 10)],
    ['nothing', []],
  ])('after %s', async (_, changed) => {
    const keeper = beliefKeeper({ patienceMs: 60_000, onCaughtUp: never })
    await keeper.take(evidence, SHOP)
    const after = await keeper.take(changed, SHOP)
    expect(numbers(after.belief)).toEqual(wholeOf(changed))
    const { days } = replay(changed, { shop: SHOP })
    expect(after.days.map(({ day, jumpChance }) => [day, jumpChance])).toEqual(
      days.map(({ day, jumpChance }) => [day, jumpChance]),
    )
  })

  test('on the evening of any day', async () => {
    const keeper = beliefKeeper({ onCaughtUp: never })
    const { onEvening, evenings } = await keeper.take(evidence, SHOP)
    for (const day of [-3, 0, 61, 62, 178, 400]) {
      expect([day, numbers(await onEvening(day))]).toEqual([day, wholeOf(evidence, day)])
    }
    for (const { day, belief } of evenings.slice(0, 3)) {
      expect(numbers(belief)).toEqual(wholeOf(evidence, day))
    }
  })
})

test('evenings of half a year are all kept, of the years before one a month', async () => {
  const keeper = beliefKeeper({ onCaughtUp: never })
  const old = halfAYear().map((each) => ({ ...each, day: (each.day ?? 0) - 1000 }))
  const { evenings } = await keeper.take([...old, ...halfAYear()], SHOP)
  const before = evenings.filter(({ day }) => day < 0)
  expect(before.map(({ day }) => day)).toEqual([-1000, -970, -940, -910, -880, -850])
  expect(evenings.length - before.length).toBe(new Set(halfAYear().map(({ day }) => day)).size)
})

type OpenShelf = EveningShelf & Readonly<{ kept: Map<string, Shelved> }>

function openShelf(): OpenShelf {
  const kept = new Map<string, Shelved>()
  return {
    kept,
    keys: async () => new Set(kept.keys()),
    read: async (key) => kept.get(key) ?? null,
    keep: async (wanted) => {
      kept.clear()
      for (const { key, belief } of wanted) kept.set(key, belief)
    },
  }
}

describe('after a new start', () => {
  const evidence = halfAYear()
  const more = [...evidence, { ...evidence.at(-1), day: 181 } as Kept]

  const filledShelf = async (): Promise<OpenShelf> => {
    const shelf = openShelf()
    const keeper = beliefKeeper({ onCaughtUp: never, shelf })
    await keeper.take(evidence, SHOP)
    await new Promise(setImmediate)
    await keeper.close()
    return shelf
  }

  test('it goes on from the shelf, and reckons all once more beside the answers', async () => {
    const shelf = await filledShelf()
    // One in thirty days, the newest day and the one before it.
    expect(shelf.kept.size).toBe(8)
    let filled: () => void = never
    const done = new Promise<void>((resolve) => {
      filled = resolve
    })
    const keeper = beliefKeeper({ onCaughtUp: () => filled(), shelf })
    const { belief, days, onEvening, isRetracing } = await keeper.take(more, SHOP)
    expect(numbers(belief)).toEqual(wholeOf(more))
    expect(days.map(({ day }) => day)).toEqual([181])
    expect(isRetracing).toBe(true)
    expect(numbers(await onEvening(100))).toEqual(wholeOf(more, 100))
    await done
    const whole = await keeper.take(more, SHOP)
    expect(numbers(whole.belief)).toEqual(wholeOf(more))
    expect(whole.days.length).toBe(new Set(more.map(({ day }) => day)).size)
    expect(whole.isRetracing).toBe(false)
    await keeper.close()
  })

  test('evenings of another way of reckoning are not believed for long', async () => {
    const shelf = await filledShelf()
    for (const [key, evening] of shelf.kept) {
      const { mean, cov } = evening.gaussian
      const gaussian = { mean: mean.map((value) => value + 0.1), cov }
      shelf.kept.set(key, { ...evening, gaussian })
    }
    let filled: () => void = never
    const done = new Promise<void>((resolve) => {
      filled = resolve
    })
    const keeper = beliefKeeper({ onCaughtUp: () => filled(), shelf })
    await keeper.take(more, SHOP)
    await done
    expect(numbers((await keeper.take(more, SHOP)).belief)).toEqual(wholeOf(more))
    await keeper.close()
    for (const { gaussian, day } of shelf.kept.values()) {
      expect([day, [...gaussian.mean], [...gaussian.cov]]).toEqual(wholeOf(more, day ?? 0))
    }
  })

  test('a reading that comes while all is reckoned once more is in the answer', async () => {
    const shelf = await filledShelf()
    let filled: () => void = never
    const done = new Promise<void>((resolve) => {
      filled = resolve
    })
    const keeper = beliefKeeper({ onCaughtUp: () => filled(), shelf, patienceMs: 60_000 })
    await keeper.take(evidence, SHOP)
    const { belief } = await keeper.take(more, SHOP)
    expect(numbers(belief)).toEqual(wholeOf(more))
    await done
    const whole = await keeper.take(more, SHOP)
    expect(numbers(whole.belief)).toEqual(wholeOf(more))
    expect(whole.days.length).toBe(new Set(more.map(({ day }) => day)).size)
    await keeper.close()
  })

  test('a shelf that cannot be read costs time and no answer', async () => {
    const shelf = await filledShelf()
    const blind: EveningShelf = { ...shelf, read: async () => null }
    const keeper = beliefKeeper({ onCaughtUp: never, shelf: blind })
    expect(numbers((await keeper.take(more, SHOP)).belief)).toEqual(wholeOf(more))
    await keeper.close()
  })
})

test('a long replay is not waited for: what was believed answers, and is told to be behind', async () => {
  let caughtUp: () => void = never
  const done = new Promise<void>((resolve) => {
    caughtUp = resolve
  })
  const keeper = beliefKeeper({ patienceMs: 0, onCaughtUp: () => caughtUp() })
  const evidence = halfAYear()
  const before = await keeper.take(evidence, SHOP)
  expect(before.isBehind).toBe(false)
  const changed = evidence.slice(1)
  const meanwhile: Believed = await keeper.take(changed, SHOP)
  expect(meanwhile.isBehind).toBe(true)
  expect(meanwhile.belief).toBe(before.belief)
  await done
  const after = await keeper.take(changed, SHOP)
  expect([after.isBehind, numbers(after.belief)]).toEqual([false, wholeOf(changed)])
})

test('what comes while a replay runs is in the answer of the next', async () => {
  const keeper = beliefKeeper({ patienceMs: 60_000, onCaughtUp: never })
  const evidence = halfAYear()
  const [first, second] = await Promise.all([
    keeper.take(evidence.slice(0, 90), SHOP),
    keeper.take(evidence, SHOP),
  ])
  expect(numbers(second.belief)).toEqual(wholeOf(evidence))
  expect([wholeOf(evidence), wholeOf(evidence.slice(0, 90))]).toContainEqual(numbers(first.belief))
})
