import { expect, test } from 'vitest'
import type { Film } from '../film.ts'
import { DIFFERENCE, differences } from './differences.ts'
import { markShares } from './markShares.ts'
import { planeOf } from './plane.ts'

const BELOW = 0.5
const LIMITS = { openWeak: 0.15, openStrong: 0.45, shutWeak: 0.15, shutStrong: 0.28 }

/** A film of so many columns, its rows in bands of two. */
function film(transmissions: readonly number[], widthPx: number): Film {
  const heightPx = transmissions.length / widthPx
  const densities = Float32Array.from(transmissions, (part) => -Math.log10(part))
  async function* bands() {
    for (let top = 0; top < heightPx; top += 2) {
      const rows = Math.min(2, heightPx - top)
      yield { top, rows, samples: densities.subarray(top * widthPx, (top + rows) * widthPx) }
    }
  }
  return { widthPx, heightPx, pixelUm: 85, transmissionOf: null, bands }
}

test('a film of black and clear has no greys', async () => {
  const { greys } = await markShares(film([1, 0.001, 0.01, 1], 2), {
    cellPx: 1,
    belowTransmission: BELOW,
    withGreys: true,
  })
  expect(greys).toBeNull()
})

test('a grey is off its share by what its light says: a mark below, ground above', async () => {
  const rows = [1, 0.4, 0.001, 0.7, 1, 1, 0.3, 0.001, 0.001]
  const asked = { belowTransmission: BELOW, withGreys: true }
  const single = await markShares(film(rows, 3), { ...asked, cellPx: 1 })
  expect([...(single.greys ?? [])]).toEqual([0, -40, 0, 30, 0, 0, -30, 0, 0])
  const fourfold = await markShares(film(rows, 3), { ...asked, cellPx: 2 })
  // the last column and row of cells hold only what is left of the film
  expect([...(fourfold.greys ?? [])]).toEqual([-2, 0, -7, 0])
  const divided = await markShares(film([0.4, 1], 2), { ...asked, cellPx: 0.5 })
  expect([...(divided.greys ?? [])]).toEqual([-40, -40, 0, 0, -40, -40, 0, 0])
})

test('what a grey mark lets through is no skin; a skin over a dense one is', () => {
  const [widthPx, heightPx] = [9, 7]
  const due = planeOf(widthPx, heightPx)
  due.values.fill(1)
  const seen = { ...due, values: due.values.slice() }
  const greys = new Int8Array(due.values.length)
  const middle = 3 * widthPx + 4
  for (const at of [middle - 1, middle, middle + 1]) {
    seen.values[at] = 0.62
    greys[at] = -41
  }
  expect(differences(seen, due, LIMITS)[middle]).toBe(DIFFERENCE.shutStrong)
  expect([...differences(seen, { ...due, greys }, LIMITS)].every((code) => code === 0)).toBe(true)
  seen.values[middle] = 0
  expect(differences(seen, { ...due, greys }, LIMITS)[middle]).toBe(DIFFERENCE.shutStrong)
})
