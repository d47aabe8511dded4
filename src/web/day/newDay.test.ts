import { expect, test } from 'vitest'
import { type DayDraft, dayWritten } from './newDay.ts'

const DRAFT: DayDraft = {
  title: ' Thursday ',
  begins: '9.05',
  closes: '17:00',
  people: 'Tamsin 2\n\n Jonah Pell \n',
  isCoated: true,
  againFrom: 1,
  stations: [
    { name: 'coating', machines: '2', minutes: '8', people: true },
    { name: 'light', machines: '1', minutes: '9.5', people: true },
  ],
}
const today = new Date('2026-11-28T12:00:00')

test('a class as it is written: a name alone has one screen, coated screens begin at the lamp', () => {
  const { day, wrongs } = dayWritten(DRAFT, { today })
  expect(day).toMatchObject({
    title: 'Thursday',
    people: [
      { name: 'Tamsin', screens: 2, arriveMin: 0 },
      { name: 'Jonah Pell', screens: 1, arriveMin: 0 },
    ],
    stations: [{ name: 'light', machines: 1, minutes: 9.5 }],
    againFrom: 0,
    beginsAt: new Date('2026-11-28T09:05:00').toISOString(),
  })
  expect(Object.values(wrongs)).toEqual([null, null, null, null])
})

test('what is wrong is said at its own field', () => {
  const wrong = { ...DRAFT, begins: '25:00', people: 'Tamsin 12', stations: [] }
  expect(dayWritten(wrong, { today })).toEqual({
    day: null,
    wrongs: {
      people: '“Tamsin 12” is no name with a number of screens from 1 to 10.',
      begins: 'Write a time like 13:30.',
      closes: null,
      stations: null,
    },
  })
  const none = { ...DRAFT, people: ' \n', stations: [{ ...DRAFT.stations[0], machines: '1.5' }] }
  expect(dayWritten(none as DayDraft, { today }).wrongs).toMatchObject({
    people: 'Write at least one name.',
    stations: 'Write a number from 1 on.',
  })
})
