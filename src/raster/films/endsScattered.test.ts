import { expect, test } from 'vitest'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { SOLID } from '../../core/halftone/solid.ts'
import { near } from '../../core/units/near.testing.ts'
import { endsScattered } from './endsScattered.ts'
import { screenOf } from './screen.ts'
import { tonesAsDrawn, tonesHeld } from './toneRange.ts'

const PIXEL_UM = 25_400 / 720
const SIDE = 768
const DOTS: Halftone = { kind: 'dot', shape: 'round', rulingPerCm: 18, angleDeg: 22.5 }
const tones = { least: 0.06, most: 0.9, scatters: true }

function tint(share: number, screen = endsScattered(DOTS, { pixelUm: PIXEL_UM, tones })): string[] {
  const row = new Uint16Array(SIDE).fill(Math.round(share * SOLID))
  const bits = new Uint8Array(SIDE / 8)
  return Array.from({ length: SIDE }, (_, y) => {
    screen.row(y, row, bits)
    return [...bits].map((byte) => byte.toString(2).padStart(8, '0')).join('')
  })
}

const shareOf = (rows: readonly string[]): number =>
  rows.join('').replaceAll('0', '').length / SIDE ** 2

/** The shortest run of a colour along rows, but for those at the rim. */
const shortest = (rows: readonly string[], colour: '0' | '1'): number =>
  Math.min(
    ...rows.flatMap((row) =>
      row
        .split(colour === '1' ? '0' : '1')
        .slice(1, -1)
        .map(({ length }) => length)
        .filter((length) => length > 0),
    ),
  )

test.each([0.01, 0.03, 0.05, 0.93, 0.97])(
  'a tint of %d keeps its mean, of dots as wide as hold',
  (share) => {
    const rows = tint(share)
    near(shareOf(rows), share, { within: 0.002, because: 'scattered, the contract' })
    // the larger end: islands of 10 % of a cell of 556 um are 198 um wide
    expect(shortest(rows, share < 0.5 ? '1' : '0') * PIXEL_UM).toBeGreaterThan(170)
  },
)

test('tones between are the dots themselves, and without scatter all are', () => {
  const plain = screenOf(DOTS, { pixelUm: PIXEL_UM })
  expect(tint(0.4)).toEqual(tint(0.4, plain))
  const clipped = endsScattered(DOTS, { pixelUm: PIXEL_UM, tones: { least: 0.06, most: 0.9 } })
  expect(tint(0.03, clipped)).toEqual(tint(0.03, plain))
})

test('a measured print comes before what the fabric holds', async () => {
  const row = Uint16Array.from([0, 0.05, 0.31, 0.68, 0.97, 1], (share) => Math.round(share * SOLID))
  const one = {
    plates: 1,
    widthPx: row.length,
    heightPx: 1,
    rows: async function* () {
      yield await Promise.resolve([row])
    },
  }
  const printed = [
    [0.2, 0.31],
    [0.5, 0.68],
  ] as const
  const film: number[] = []
  const changes = [{ tones: { least: 0.1, most: 0.85 }, printed, table: null }]
  for await (const [plate] of tonesHeld(tonesAsDrawn(one, changes), changes).rows()) {
    film.push(...(plate ?? []))
  }
  const shares = film.map((tone) => Number((tone / SOLID).toFixed(4)))
  expect(shares).toEqual([0, 0, 0.2, 0.5, 1, 1])
})
