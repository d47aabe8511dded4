import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { tableRows } from '../decode/tableRows.ts'
import { dayOfIso, isoOfDay } from './calendarDay.ts'
import { readNotes } from './notes.ts'
import type { KnownReading, KnownToShop, NotesRead } from './notesRecords.ts'

const names = (...all: readonly string[]) => all.map((name, at) => ({ id: `id${at}`, name }))
const KNOWN: KnownToShop = {
  media: names('soft pencil', 'drawing ink', 'inkjet film', 'cut masking film'),
  units: names('big lamp', 'tubes'),
  fabrics: names('90-48 yellow', '77-55'),
  batches: names('March bucket'),
}
const TODAY = dayOfIso('2026-03-20') ?? 0

type More = Partial<Parameters<typeof readNotes>[1]>
const read = (text: string, more: More = {}): NotesRead =>
  readNotes(tableRows(text), { today: TODAY, known: KNOWN, ...more })
const HEAD = 'date,medium,dose,outcome\n'
const says = (text: string, more: More = {}): readonly string[] =>
  read(text, more).taken.map((line) => line.says)
const wrongs = (text: string, more: More = {}): readonly string[] =>
  read(text, more).problems.map(({ message }) => message)
/** What is said of one line beneath the usual heading. */
const wrong = (line: string): string => wrongs(HEAD + line).join()

describe('a file of old notes', () => {
  test('is read line by line, with all that it tells', () => {
    const text = [
      'Day;Film;Light units;How it came out;Lamp;Mesh;Bucket;Frame;Lamp hours;Remarks;Weather',
      '2.3.2026;Soft Pencil;38,5;Good;big lamp;90-48 yellow;March bucket;14;412,5;"first; of the year";rain',
      '',
      '3.3.2026;ink;61;sound and filling;;77;;;;;sun',
    ].join('\r\n')
    const { lines, taken, problems, leftAside } = read(text)
    expect({ lines, problems, leftAside }).toEqual({
      lines: 2,
      problems: [],
      leftAside: ['Weather'],
    })
    expect(taken).toEqual([
      {
        line: 2,
        day: dayOfIso('2026-03-02'),
        on: '2026-03-02',
        medium: KNOWN.media[0],
        doseCounts: 38.5,
        grading: { grade: 'good' },
        unit: KNOWN.units[0],
        fabric: KNOWN.fabrics[0],
        batch: KNOWN.batches[0],
        screen: '14',
        film: undefined,
        lampHours: 412.5,
        note: 'first; of the year',
        says: '2026-03-02: soft pencil at 38.5, good (big lamp, 90-48 yellow, March bucket, screen 14)',
      },
      expect.objectContaining({
        line: 4,
        medium: KNOWN.media[1],
        grading: { ground: 'sound', marks: 'filling' },
        says: '2026-03-03: drawing ink at 61, ground sound, marks filling (77-55)',
      }),
    ])
  })

  test('a film has a column of its own where the medium has one', () => {
    const [line] = read('film,medium,date,dose,outcome\nreeds,soft pencil,2026-03-02,38,good').taken
    expect(line).toMatchObject({ film: 'reeds', medium: { name: 'soft pencil' } })
  })

  test('some lines are taken and the others say why not', () => {
    const { taken, problems, lines } = read(
      `${HEAD}2026-03-02,soft pencil,38,good\n2026-03-03,soft pencil,forty,good\n2026-03-04,drawing ink,61,soft`,
    )
    expect([lines, taken.map(({ line }) => line)]).toEqual([3, [2, 4]])
    expect(problems).toEqual([
      {
        line: 3,
        message:
          "Line 3: the dose must be a number of light units above 0, like 42. It says 'forty'.",
      },
    ])
  })
})

describe('the first line', () => {
  test.each([
    ['', 'Line 1: the table is empty'],
    [
      '2026-03-02,soft pencil,38,good',
      'Line 1: the first line must name the columns: date, medium',
    ],
    ['date,medium,dose\n2026-03-02,soft pencil,38', 'Line 1: there is no column of the outcome'],
    ['date,dose\n2026-03-02,38', 'there is no column of the medium or the outcome'],
    ['date,medium,dose,lu,outcome', "'dose' and 'lu' are both of the dose: keep one of the two."],
    ['date,medium,dose (seconds),outcome', "'dose (seconds)' counts in seconds"],
    ['date,medium,Seconds,outcome', 'counts in seconds, and the exposure unit here in light units'],
  ])('%j', (text, words) => {
    const { problems, taken } = read(text)
    expect(problems).toHaveLength(1)
    expect(problems[0].message).toContain(words)
    expect(taken).toEqual([])
  })

  test.each([
    'Dose (lu)',
    'dose [light units]',
    'LIGHT_UNITS',
    'lightUnits',
    'Units:',
    'dose in lu',
  ])('%s is the dose', (heading) => {
    expect(says(`date,medium,${heading},outcome\n2026-03-02,soft pencil,38,good`)).toHaveLength(1)
  })

  test('under a unit that counts seconds the dose is in seconds', () => {
    const text = 'date,medium,seconds,outcome\n2026-03-02,soft pencil,95 sec,good'
    expect(says(text, { countsIn: 'seconds' })).toEqual(['2026-03-02: soft pencil at 95, good'])
    expect(wrongs(text.replace('seconds', 'lu'), { countsIn: 'seconds' })[0]).toContain(
      "'lu' counts in light units",
    )
  })
})

describe('dates', () => {
  const on = (...dates: readonly string[]): readonly string[] => {
    const lines = dates.map((date, at) => `"${date}",soft pencil,${30 + at},good`)
    return read(HEAD + lines.join('\n')).taken.map((line) => line.on)
  }

  test.each([
    '2026-03-02',
    '2026/3/2',
    '2.3.2026',
    '02.03.26',
    '2 March 2026',
    '2nd Mar 2026',
    'March 2, 2026',
    'Mon 2 Mar 26',
    '2026-03-02 14:30',
    '2026-03-02T14:30:00Z',
  ])('%s is 2 March 2026', (date) => {
    expect(on(date)).toEqual(['2026-03-02'])
  })

  test('what comes first in 3/2/2026 the rest of the file tells', () => {
    expect(on('3/2/2026', '13/2/2026')).toEqual(['2026-02-03', '2026-02-13'])
    expect(on('3/2/2026', '2/13/2026')).toEqual(['2026-03-02', '2026-02-13'])
    expect(on('3/2/2025', '9/12/2025', '12/9/2025')).toEqual([])
    // The other reading of these is December, which is still to come.
    expect(on('12/1/2026', '3/2/2026')).toEqual(['2026-01-12', '2026-02-03'])
    expect(on('1/12/2026', '3/2/2026')).toEqual(['2026-01-12', '2026-03-02'])
    expect(on('3-2-2026', '1/6/2026')).toEqual(['2026-03-02', '2026-01-06'])
  })

  test('where nothing tells it is asked, unless both are one day or somebody answers', () => {
    const text = `${HEAD}3/2/2025,soft pencil,38,good\n5/5/2025,soft pencil,38,good`
    expect(wrongs(text)).toEqual([
      "Line 2: '3/2/2025' may be 2025-02-03 or 2025-03-02, and nothing in the file tells which: write it like 2025-02-03.",
    ])
    expect(read(text).taken.map((line) => line.on)).toEqual(['2025-05-05'])
    const answered = (slashDates: 'day first' | 'month first') =>
      read(text, { slashDates }).taken.map((line) => line.on)
    expect(read(text).slashDatesUnclear).toBe(true)
    expect(read(text, { slashDates: 'day first' }).slashDatesUnclear).toBe(true)
    for (const clear of [
      '2025-02-03',
      '13/2/2025',
      '5/5/2025',
      '3 Feb 2025',
      'soon',
      '30/30/2025',
    ]) {
      expect(read(`${HEAD}${clear},soft pencil,38,good`).slashDatesUnclear, clear).toBe(false)
    }
    expect(answered('day first')).toEqual(['2025-02-03', '2025-05-05'])
    expect(answered('month first')).toEqual(['2025-03-02', '2025-05-05'])
  })

  test('a file that has both orders is asked where a date fits both', () => {
    const text = `${HEAD}13/2/2025,soft pencil,38,good\n2/13/2025,soft pencil,39,good\n3/2/2025,soft pencil,40,good`
    expect(read(text).taken.map((line) => line.on)).toEqual(['2025-02-13', '2025-02-13'])
    expect(wrongs(text)[0]).toContain("Line 4: '3/2/2025' may be")
  })

  test.each([
    ['', 'the date is missing'],
    ['last week', "must be a day like 2026-03-02. It says 'last week'."],
    ['45718', 'must be a day like'],
    ['2026-02-30', "no calendar has the day '2026-02-30'"],
    ['31.4.2025', 'no calendar has the day'],
    ['31/31/2025', 'no calendar has the day'],
    ['2 Mai 2025', 'no calendar has the day'],
    ['2026-03-21', '2026-03-21 is still to come: check the date.'],
    ['1926-03-02', '1926-03-02 is long ago: check the year.'],
  ])('%j', (date, words) => {
    expect(wrong(`${date},soft pencil,38,good`)).toContain(words)
  })

  test('invariant: a day in any of its forms is that day, or a question', () => {
    const day = fc.integer({ min: dayOfIso('1990-01-01') ?? 0, max: TODAY })
    const form = fc.constantFrom('iso', 'dots', 'day first', 'month first')
    fc.assert(
      fc.property(fc.array(day, { minLength: 1, maxLength: 6 }), form, (days, form) => {
        const written = days.map((each) => {
          const iso = isoOfDay(each)
          const [year, month, date] = iso.split('-').map(Number)
          if (form === 'iso') return iso
          if (form === 'dots') return `${date}.${month}.${year}`
          return form === 'day first' ? `${date}/${month}/${year}` : `${month}/${date}/${year}`
        })
        const text =
          HEAD + written.map((date, at) => `${date},soft pencil,${30 + at},good`).join('\n')
        const { taken, problems } = read(text)
        expect(taken.length + problems.length).toBe(days.length)
        for (const { line, day } of taken) expect(day).toBe(days[line - 2])
        for (const { message } of problems) expect(message).toContain('nothing in the file tells')
        if (form === 'iso' || form === 'dots') expect(problems).toEqual([])
      }),
      { seed: 12, numRuns: 300 },
    )
  })
})

describe('doses', () => {
  test.each([
    ['38', 38],
    ['38.5', 38.5],
    ['"38,5"', 38.5],
    ['38 lu', 38],
    ['38 Light Units', 38],
    ['0.5', 0.5],
  ])('%s', (dose, counts) => {
    expect(read(`${HEAD}2026-03-02,soft pencil,${dose},good`).taken[0]?.doseCounts).toBe(counts)
  })

  test.each([
    ['', 'the dose is missing'],
    ['40-45', "must be one number. '40-45' is two: write the one that was set."],
    ['40 to 45', 'must be one number'],
    ['40–45 lu', 'must be one number'],
    ['40/45', 'must be one number'],
    ['0', 'above 0, like 42'],
    ['-4', 'above 0'],
    ['1e3', 'above 0'],
    ['about 40', "It says 'about 40'"],
    ['"1,200"', "'1,200' may be 1200 or 1.2: write it without the comma."],
    ['200000', 'between 0.1 and 100000'],
  ])('%j', (dose, words) => {
    expect(wrong(`2026-03-02,soft pencil,${dose},good`)).toContain(words)
  })

  test('a decimal comma among commas makes a cell too many, and the line says so', () => {
    expect(wrong('2026-03-02,soft pencil,38,5,good')).toBe(
      'Line 2: it has 5 cells and the first line names 4: a comma within a cell wants quotation marks round the cell.',
    )
    expect(says(`${HEAD}2026-03-02,soft pencil,38,good,,`)).toHaveLength(1)
  })
})

describe('outcomes', () => {
  test.each([
    ['good', 'good'],
    ['OK!', 'good'],
    ['came out fine', 'good'],
    ['fell off', 'washed off'],
    ['Washed-off', 'washed off'],
    ['slimy', 'soft'],
    ['filling in', 'filling'],
    ['blocked', 'filled'],
    ['closed up.', 'filled'],
    ['didn’t open', 'filled'],
    ['sound + open', 'ground sound, marks open'],
    ['soft; filled', 'ground soft, marks filled'],
    ['marks filling but ground sound', 'ground sound, marks filling'],
  ])('%s', (words, said) => {
    expect(says(`${HEAD}2026-03-02,soft pencil,38,${words}`)).toEqual([
      `2026-03-02: soft pencil at 38, ${said}`,
    ])
  })

  test.each([
    ['', 'the outcome is missing: write washed off, soft, good, filling or filled.'],
    ['meh', "must be washed off, soft, good, filling or filled. It says 'meh'."],
    ['goood', 'Did you mean good?'],
    ['overexposed', "'overexposed' may be filling or filled: write which it was."],
    ['washed out', 'may be washed off, or good'],
    ['open', "It says 'open'."],
    ['good and filled', "It says 'good and filled'."],
  ])('%j', (words, said) => {
    expect(wrong(`2026-03-02,soft pencil,38,${words}`)).toContain(said)
  })
})

describe('names of the shop', () => {
  test.each([
    ['soft pencil', 'soft pencil'],
    ['SOFT  PENCIL', 'soft pencil'],
    ['id1', 'drawing ink'],
    ['pencil', 'soft pencil'],
    ['soft pencil 6B', 'soft pencil'],
  ])('%s is %s', (cell, name) => {
    expect(read(`${HEAD}2026-03-02,${cell},38,good`).taken[0]?.medium.name).toBe(name)
  })

  test.each([
    ['', 'the medium is missing'],
    ['film', "'film' may be inkjet film or cut masking film: write which medium it was."],
    ['soft pensil', "the shop has no medium 'soft pensil'. Did you mean soft pencil?"],
    ['charcoal', 'It has soft pencil, drawing ink, inkjet film, cut masking film.'],
  ])('%j', (cell, words) => {
    expect(wrong(`2026-03-02,${cell},38,good`)).toContain(words)
  })

  test('a bucket that the shop does not have is asked for', () => {
    const text = 'date,medium,dose,outcome,bucket\n2026-03-02,soft pencil,38,good,A-17'
    expect(wrongs(text)).toEqual([
      "Line 2: the shop has no bucket 'A-17'. Add it to the shop first, or leave the cell empty.",
    ])
  })

  test('hours that are none, and texts without end', () => {
    const text = (hours: string, note: string): string =>
      `date,medium,dose,outcome,hours,note\n2026-03-02,soft pencil,38,good,${hours},${note}`
    expect(wrongs(text('many', ''))[0]).toContain("must be a number, like 512. It says 'many'.")
    expect(wrongs(text('12 h', 'x'.repeat(2001)))[0]).toContain('the note is longer than 2000')
    expect(read(text('12 h', 'x')).taken[0]).toMatchObject({ lampHours: 12, note: 'x' })
  })
})

describe('what is told twice', () => {
  const line = '2026-03-02,soft pencil,38,good'

  test('within the file the later line is left out, and says which it repeats', () => {
    const { taken, problems } = read(`${HEAD}${line}\n2026-03-02,pencil,38.0,ok\n`)
    expect(taken).toHaveLength(1)
    expect(problems.map(({ message }) => message)).toEqual([
      "Line 3: this is what line 2 says, so it is left out. Were it two screens, tell them apart in a column 'screen'.",
    ])
  })

  test('another screen, dose, day or outcome is another line', () => {
    const head = 'date,medium,dose,outcome,screen\n'
    expect(read(`${head}${line},7\n${line},8\n${line},`).taken.map((each) => each.line)).toEqual([
      2, 3,
    ])
    const others = [
      '2026-03-01,soft pencil,38,good',
      '2026-03-02,ink,38,good',
      '2026-03-02,soft pencil,39,good',
      '2026-03-02,soft pencil,38,soft',
    ]
    expect(read(HEAD + [line, ...others].join('\n')).taken).toHaveLength(5)
  })

  test('what the shop remembers is not taken a second time', () => {
    const known: KnownReading = {
      day: dayOfIso('2026-03-02') ?? 0,
      medium: 'id0',
      doseCounts: (38 / 1.7) * 1.7 + 1e-12,
      grading: { ground: 'sound', marks: 'open' },
      unit: 'id0',
    }
    const readings = [known]
    expect(wrongs(HEAD + line, { known: { ...KNOWN, readings } })).toEqual([
      "Line 2: the shop's memory has this screen already, so the line is left out.",
    ])
    const other = `date,medium,dose,outcome,lamp\n${line},tubes`
    expect(wrongs(other, { known: { ...KNOWN, readings } })).toEqual([])
  })
})

test('invariant: whatever the cells hold, every line is taken or says in one sentence why not', () => {
  const cell = fc.oneof(
    fc.constantFrom('2026-03-02', '3/2/2025', 'soft pencil', '38', '40-45', 'good', '', '9 h'),
    fc.string({ maxLength: 12 }),
  )
  const row = fc.array(cell, { minLength: 1, maxLength: 12 })
  const head = ['date', 'medium', 'dose', 'outcome', 'unit', 'fabric', 'bucket', 'hours']
  fc.assert(
    fc.property(fc.array(row, { maxLength: 6 }), (rows) => {
      const table = [head, ...rows].map((cells, at) => ({ line: at + 1, cells }))
      const { lines, taken, problems } = readNotes(table, { today: TODAY, known: KNOWN })
      expect(lines).toBe(rows.length)
      const told = [...taken, ...problems].map(({ line }) => line)
      expect(told.toSorted((a, b) => a - b)).toEqual(rows.map((_, at) => at + 2))
      for (const { line, message } of problems)
        expect(message.startsWith(`Line ${line}: `)).toBe(true)
    }),
    { seed: 5, numRuns: 500 },
  )
})
