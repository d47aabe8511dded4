import fc from 'fast-check'
import { expect, test } from 'vitest'
import { blueNoise } from '../../core/halftone/blueNoise.ts'
import type { DotShapeName } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { type FilmRows, filmRows, filmRowsHolding } from '../../kernels/filmRows.ts'
import { maskRanks } from '../../kernels/maskRanks.ts'
import { endsScattered } from './endsScattered.ts'
import { enlarged } from './enlarge.ts'
import { plainRows } from './plainRows.ts'
import { type Screen, screenOf, solidScreen } from './screen.ts'
import { screenedBands } from './screenedBands.ts'
import type { Tones } from './tones.ts'

const PIXEL_UM = 25_400 / 1440

/** Rows as films have them: nothing, solid, slopes and noise, wherever they begin. */
const toneRows = fc
  .array(
    fc.record({
      length: fc.integer({ min: 1, max: 60 }),
      from: fc.constantFrom(0, 0xffff, 700, 30_000, 51_400, 51_480, 60_000, 65_534),
      step: fc.constantFrom(0, 0, 1, 97, -410, 20_011),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((runs) =>
    Uint16Array.from(
      runs.flatMap(({ length, from, step }) =>
        Array.from({ length }, (_, at) => (from + at * step) & 0xffff),
      ),
    ),
  )

const shapes = fc.constantFrom<DotShapeName>('round', 'elliptical', 'line')
const halftones: fc.Arbitrary<Halftone> = fc.record({
  kind: fc.constant('dot' as const),
  shape: shapes,
  rulingPerCm: fc.constantFrom(6, 18, 23.7, 30, 62.5),
  angleDeg: fc.constantFrom(0, 15, 22.5, 45, 61.3, 90),
})

function drawn(screen: Screen, rows: FilmRows, { y, tones }: Row): number[] {
  const [row, draw] = [rows.tones(tones.length), screen.drawing(rows, tones.length)]
  if (row === null || draw === null) throw new Error('expected room')
  row.set(tones)
  return [...draw(y, row)]
}
type Row = Readonly<{ y: number; tones: Uint16Array }>

const scattered = screenOf({ kind: 'stochastic', seed: 7 }, { pixelUm: PIXEL_UM })
const larger = screenOf({ kind: 'stochastic', seed: 7, dotUm: 60 }, { pixelUm: PIXEL_UM })

test('invariant: every screen draws the same bits by machine code as by plain loops', () => {
  const dots = halftones.map((halftone) => screenOf(halftone, { pixelUm: PIXEL_UM }))
  const ends = halftones.map((halftone) =>
    endsScattered(halftone, {
      pixelUm: PIXEL_UM,
      tones: { least: 0.08, most: 0.9, scatters: true },
    }),
  )
  const screens = fc.oneof(
    { weight: 4, arbitrary: dots },
    ends,
    fc.constantFrom(scattered, larger, solidScreen()),
  )
  fc.assert(
    fc.property(screens, toneRows, fc.nat(30_000), (screen, tones, y) => {
      const row = { y, tones }
      const kernel = drawn(screen, filmRows({ roomBytes: 0 }), row)
      expect(kernel).toEqual(drawn(screen, plainRows(), row))
      // and whether a row lies in a kernel or is copied into one
      const bits = new Uint8Array(Math.ceil(tones.length / 8)).fill(0x55)
      screen.drawn(y, tones, bits)
      expect([...bits]).toEqual(kernel)
    }),
    { numRuns: 120 },
  )
})

/** Two plates of noise with much that is flat. */
function picture(seed: number, widthPx: number, heightPx: number): Tones {
  return {
    plates: 2,
    widthPx,
    heightPx,
    async *rows(from = 0) {
      for (let y = from; y < heightPx; y++) {
        await Promise.resolve()
        yield [0, 1].map((plate) =>
          Uint16Array.from({ length: widthPx }, (_, x) => {
            const noise = (Math.imul(seed + x + 977 * y + plate, 0x9e37_79b1) >>> 7) & 0xffff
            return noise < 9000 ? 0 : noise > 56_000 ? 0xffff : noise
          }),
        )
      }
    },
  }
}

/** Enlarged by plain loops. */
function plainlyEnlarged(
  from: Tones,
  size: Readonly<{ widthPx: number; heightPx: number }>,
): Tones {
  return enlarged(from, size, (plan, plates) => {
    const enlarger = plainRows().enlarger(plan, plates)
    if (enlarger === null) throw new Error('expected room')
    return enlarger
  })
}

test('invariant: rows are made wider to the same tones by machine code as by plain loops', async () => {
  const side = fc.integer({ min: 1, max: 70 })
  const times = fc.constantFrom(1.02, 1.15, 1.2, 1.5, 4.8, 11)
  await fc.assert(
    fc.asyncProperty(side, side, times, times, async (wide, high, across, down) => {
      const size = { widthPx: Math.ceil(wide * across), heightPx: Math.ceil(high * down) }
      const from = picture(wide * high, wide, high)
      const plain = plainlyEnlarged(from, size)
      const others = plain.rows()[Symbol.asyncIterator]()
      for await (const row of enlarged(from, size).rows()) {
        const { value } = await others.next()
        expect(row.map((plate) => [...plate])).toEqual(
          (value as Uint16Array[]).map((plate) => [...plate]),
        )
        expect(row.every((plate) => row.length === 0 || plate.length === size.widthPx)).toBe(true)
      }
    }),
    { numRuns: 25 },
  )
})

test('invariant: bands drawn as they are enlarged are the rows of plain loops, from wherever they begin', async () => {
  const side = fc.integer({ min: 1, max: 70 })
  const times = fc.constantFrom(0.4, 1.02, 1.2, 4.8, 11)
  const part = fc.double({ min: 0, max: 0.99, noNaN: true })
  const dots = halftones.map((halftone) => screenOf(halftone, { pixelUm: PIXEL_UM }))
  const screens = fc.oneof(dots, fc.constantFrom(scattered, larger, solidScreen()))
  await fc.assert(
    fc.asyncProperty(
      fc.tuple(side, side, times, times),
      fc.tuple(part, part, fc.integer({ min: 1, max: 9 })),
      fc.tuple(screens, screens),
      async ([wide, high, across, down], [begin, end, bandRows], both) => {
        const size = { widthPx: Math.ceil(wide * across), heightPx: Math.ceil(high * down) }
        const from = Math.floor(begin * size.heightPx)
        const to = from + 1 + Math.floor(end * (size.heightPx - from))
        const source = picture(wide * high, wide, high)
        const rows: number[][][] = [[], []]
        const bands = screenedBands(enlarged(source, size), { screens: both, from, to, bandRows })
        for await (const band of bands) {
          expect(band.rows).toBeLessThanOrEqual(bandRows)
          band.bits.forEach((bits, plate) => {
            const bytes = bits.length / band.rows
            for (let row = 0; row < band.rows; row++) {
              rows[plate]?.push([...bits.subarray(row * bytes, (row + 1) * bytes)])
            }
          })
        }
        const plain: number[][][] = [[], []]
        let y = from
        for await (const row of plainlyEnlarged(source, size).rows(from)) {
          both.forEach((screen, plate) => {
            plain[plate]?.push(drawn(screen, plainRows(), { y, tones: row[plate] ?? row[0] }))
          })
          y += 1
          if (y === to) break
        }
        expect(rows).toEqual(plain)
      },
    ),
    { numRuns: 60 },
  )
})

test('invariant: greys are looked up, and pixels of a mask ranked, the same by both', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 1, maxLength: 90 }), fc.nat(), (greys, seed) => {
      const table = Uint16Array.from({ length: 256 }, (_, grey) =>
        Math.imul(grey + seed, 0x9e37_79b1),
      )
      const takenBy = (rows: FilmRows): number[] => {
        const taken = rows.greys(greys.length, table)
        taken?.take(new Uint8Array(greys.length).fill(250))
        taken?.take(greys)
        return [...(taken?.tones ?? [])]
      }
      expect(takenBy(filmRows({ roomBytes: 0 }))).toEqual(takenBy(plainRows()))
      expect(takenBy(plainRows())).toHaveLength(greys.length)
    }),
  )
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 ** 32 - 1 }), (seed) => {
      expect(blueNoise({ seed }, maskRanks)).toEqual(blueNoise({ seed }))
    }),
    { numRuns: 8, examples: [[1], [7], [2 ** 32 - 1]] },
  )
})

test('held tones are the same by both, and stay where they lie', () => {
  const held = fc.record({
    nothingBelow: fc.nat(4000),
    least: fc.integer({ min: 1000, max: 8000 }),
    most: fc.integer({ min: 50_000, max: 64_000 }),
    solidAbove: fc.integer({ min: 60_000, max: 65_535 }),
  })
  fc.assert(
    fc.property(toneRows, held, (tones, range) => {
      const rows = filmRows({ roomBytes: 0 })
      const row = rows.tones(tones.length)
      if (row === null) throw new Error('expected room')
      row.set(tones)
      rows.limit(row, range)
      const other = tones.slice()
      plainRows().limit(other, range)
      expect([...row]).toEqual([...other])
      expect(filmRowsHolding(row)).toBe(rows)
    }),
  )
})

test('invariant: flat colours and squares are the same by both', () => {
  const three = fc.tuple(toneRows, toneRows, toneRows).map((rows) => {
    const width = Math.min(...rows.map(({ length }) => length))
    return rows.map((row) => row.subarray(0, width).map((tone) => tone >> 1))
  })
  const counted = fc.integer({ min: 1, max: 130 })
  fc.assert(
    fc.property(three, counted, (parts, squarePx) => {
      const [rows, plain] = [filmRows({ roomBytes: 0 }), plainRows()]
      const width = parts[0]?.length ?? 0
      const drawnBy = (by: FilmRows): number[][] => {
        const own = parts.map((part) => {
          const row = by.tones(width) ?? new Uint16Array(0)
          row.set(part)
          return row
        })
        by.decide(own)
        const [bits, counter] = [by.bits(width), by.counter(width, squarePx)]
        if (bits === null || counter === null) throw new Error('expected room')
        own.forEach((row) => {
          by.solid(row, bits)
          counter.add(bits)
        })
        return [...own.map((row) => [...row]), [...counter.taken()], [...counter.taken()]]
      }
      expect(drawnBy(rows)).toEqual(drawnBy(plain))
    }),
  )
})
