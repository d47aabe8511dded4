import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { readClassList } from './classList.ts'
import { coatingTimes } from './coatingTimes.ts'
import { mayUse } from './machines.ts'
import { screenNext } from './next.ts'
import { byTag, nextTags, slotOf, slotsAround, slotText } from './rack.ts'
import { isOwed, type OwedScreen, reclaimDay } from './reclaimDay.ts'

const DAY = 86_400_000
const screen = (tag: string, more: Partial<OwedScreen>): OwedScreen => ({
  tag,
  is: 'exposed',
  owner: null,
  keptUntilMs: null,
  goodUntilMs: null,
  haze: false,
  tensionNewtonPerCm: null,
  ...more,
})

test('a coated screen dries, is exposed, and is too old once its days are over', () => {
  const { dryMs, goodUntilMs } = coatingTimes(1000, { dryHours: 3, goodDays: 5 })
  const coat = { is: 'coated', dryMs, goodUntilMs } as const
  expect(screenNext(coat, 1000 + 2 * 3600_000)).toBe('let it dry')
  expect(screenNext(coat, 1000 + 4 * 3600_000)).toBe('expose it')
  expect(screenNext(coat, 1001 + 5 * DAY)).toBe('the coat is too old')
  expect(screenNext({ is: 'torn', dryMs, goodUntilMs }, 0)).toBe('stretch new fabric')
  expect(() => coatingTimes(0, { dryHours: 30, goodDays: 1 })).toThrow(RangeError)
})

test('reclaim day says who owes what, what is abandoned, and what to stretch in which order', () => {
  const day = reclaimDay(
    [
      screen('1', { owner: 'Ada', keptUntilMs: 9 * DAY }),
      screen('2', { owner: 'Ada', keptUntilMs: 7 * DAY }),
      screen('3', { owner: 'Bo', keptUntilMs: 2 * DAY }),
      screen('4', { is: 'to reclaim', haze: true }),
      screen('5', { is: 'coated', goodUntilMs: 11 * DAY, tensionNewtonPerCm: 11 }),
      screen('6', { is: 'clean', tensionNewtonPerCm: 8 }),
      screen('7', { is: 'torn', haze: true }),
      screen('8', { owner: 'Cy', keptUntilMs: 12 * DAY }),
    ],
    { onMs: 10 * DAY, graceDays: 5 },
  )
  const tags = (all: readonly OwedScreen[]): string => all.map(({ tag }) => tag).join()
  expect(day.owed.map(({ owner, screens }) => [owner, tags(screens)])).toEqual([
    ['Ada', '2,1'],
    [null, '4'],
  ])
  expect([tags(day.abandoned), tags(day.haze), tags(day.restretch)]).toEqual(['3', '4', '7,6,5'])
})

test('a coat that is too old is overdue from its own day on, before a stencil kept longer', () => {
  const { owed } = reclaimDay(
    [
      screen('1', { owner: 'Ada', keptUntilMs: 9 * DAY }),
      screen('2', { owner: 'Bo', is: 'coated', goodUntilMs: 7 * DAY }),
      screen('3', { is: 'to reclaim' }),
      screen('4', { owner: 'Bo', keptUntilMs: 8 * DAY }),
    ],
    { onMs: 10 * DAY, graceDays: 5 },
  )
  expect(owed.map(({ owner, screens }) => [owner, screens.map(({ tag }) => tag).join()])).toEqual([
    ['Bo', '2,4'],
    ['Ada', '1'],
    [null, '3'],
  ])
})

test('invariant: what is owed on a day is owed on every later one, and stands in one list alone', () => {
  const some = fc.record({
    is: fc.constantFrom('clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost'),
    keptUntilMs: fc.option(fc.integer({ min: 0, max: 40 * DAY })),
    goodUntilMs: fc.option(fc.integer({ min: 0, max: 40 * DAY })),
    owner: fc.constantFrom(null, 'Ada', 'Bo'),
  })
  fc.assert(
    fc.property(fc.array(some, { maxLength: 9 }), fc.nat(40), fc.nat(20), (all, on, later) => {
      const screens = all.map((each, at) => screen(String(at), each as Partial<OwedScreen>))
      const onMs = on * DAY
      const day = reclaimDay(screens, { onMs, graceDays: 3 })
      const listed = [...day.owed.flatMap((each) => each.screens), ...day.abandoned]
      expect(listed.map(({ tag }) => tag).sort()).toEqual(
        screens
          .filter((each) => isOwed(each, onMs))
          .map(({ tag }) => tag)
          .sort(),
      )
      expect(listed.every((each) => isOwed(each, onMs + later * DAY))).toBe(true)
    }),
    { seed: 7, numRuns: 60 },
  )
})

test('places in a rack are read as people write them', () => {
  expect(['B 3', 'b3', 'B-03'].map(slotText)).toEqual(['B 3', 'B 3', 'B 3'])
  expect(slotText(' by the window ')).toBe('by the window')
  expect(slotOf('the 3rd')).toBeNull()
  expect(slotsAround({ rack: 'B', place: 1 })).toEqual([1, 2, 3, 4, 5])
  expect(slotsAround({ rack: 'B', place: 9 })).toEqual([7, 8, 9, 10, 11])
  expect(nextTags(['3', '14', 'X2'], { count: 2 })).toEqual(['15', '16'])
  expect(['14', '3', '21'].toSorted(byTag)).toEqual(['3', '14', '21'])
})

test('a class list is read with and without its first line, and says what is wrong where', () => {
  const rows = (...lines: readonly string[]) =>
    lines.map((text, at) => ({ line: at + 1, cells: text.split(',') }))
  const read = readClassList(
    rows('Last name,First name,Class', 'Ore,Tamsin,2B', ' , ,2B', 'ore,TAMSIN,2B', 'Pell,Jonah,'),
    { className: 'Thursday' },
  )
  expect(read.pupils).toEqual([
    { line: 2, name: 'Tamsin Ore', className: '2B' },
    { line: 5, name: 'Jonah Pell', className: 'Thursday' },
  ])
  expect(read.problems.map(({ line }) => line)).toEqual([3, 4])
  expect(readClassList(rows('Dov Ashgrove'), { className: null }).pupils).toHaveLength(1)
  const named = (...lines: readonly string[]) =>
    readClassList(rows(...lines), { className: null }).pupils.map(({ name }) => name)
  expect(named('Forename,Surname', 'Tamsin,Ore')).toEqual(['Tamsin Ore'])
  expect(named('Student ID,Student', '12,Tamsin Ore')).toEqual(['Tamsin Ore'])
  // without headings: a list's own numbers and a table's days are no names
  expect(named('1,Tamsin Ore', '2,Jonah Pell')).toEqual(['Tamsin Ore', 'Jonah Pell'])
  expect(named('45903,Tamsin Ore', '03/09/2026,Jonah Pell')).toHaveLength(2)
  const long = 'x'.repeat(81)
  const amiss = rows('name,class', '\u0000PNG,2B', '12,2B', 'Ada\u0007,', `${long},`, `Bo,${long}`)
  const { pupils, problems } = readClassList(amiss, { className: null })
  expect([pupils, problems.map(({ line }) => line)]).toEqual([[], [2, 3, 4, 5, 6]])
  expect(problems[0]?.says).toBe('What stands in this line is no name: copy the table as text.')
})

test('who was shown a machine may use it, that unit alone, and until it runs out', () => {
  const shown = [{ machine: 'light', unitId: 'a', givenMs: 10, expiresMs: 50 }] as const
  const at = (unitId: string, nowMs: number) =>
    mayUse(shown, { machine: 'light', unitId, nowMs }).verdict
  expect([at('a', 20), at('a', 5), at('b', 20), at('a', 60)]).toEqual([
    'may',
    'run out',
    'never shown',
    'run out',
  ])
  const all = [{ machine: 'light', unitId: null, givenMs: 10, expiresMs: null }] as const
  expect(mayUse(all, { machine: 'light', unitId: 'b', nowMs: 99 })).toEqual({ verdict: 'may' })
  expect(mayUse(all, { machine: 'water', unitId: null, nowMs: 99 }).verdict).toBe('never shown')
  // which of them it will be, nobody has said
  expect(mayUse(shown, { machine: 'light', unitId: null, nowMs: 20 }).verdict).toBe('may')
})

test('a coat that nobody named a day for is anybody’s once it is old and the days of grace are over', () => {
  const old = [screen('9', { is: 'coated', owner: 'Ada', goodUntilMs: 5 * DAY })]
  const tagsOn = (day: number): readonly (readonly string[])[] => {
    const { owed, abandoned } = reclaimDay(old, { onMs: day * DAY, graceDays: 3 })
    return [owed.map(({ owner }) => owner ?? ''), abandoned.map(({ tag }) => tag)]
  }
  expect([tagsOn(5), tagsOn(6), tagsOn(9)]).toEqual([
    [[], []],
    [['Ada'], []],
    [[], ['9']],
  ])
})
