import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { THOROUGH } from '../../tests/thorough.testing.ts'
import { near } from '../core/units/near.testing.ts'
import type { Film } from '../raster/film.ts'
import { DEMO_FILMS, type DemoFilm, type DemoFilmName } from './films.ts'

type Light = Readonly<{
  widthPx: number
  heightPx: number
  pixelMm: number
  transmission: Float32Array
}>

async function lightOf(film: Film): Promise<Light> {
  const { widthPx, heightPx, transmissionOf } = film
  const transmission = new Float32Array(widthPx * heightPx)
  for await (const { top, rows, samples } of film.bands()) {
    expect(samples.length).toBe(rows * widthPx)
    samples.forEach((sample, at) => {
      transmission[top * widthPx + at] =
        transmissionOf === null ? 10 ** -sample : transmissionOf[sample]
    })
  }
  return { widthPx, heightPx, pixelMm: film.pixelUm / 1000, transmission }
}

async function digest(film: Film): Promise<string> {
  const hash = createHash('sha256')
  for await (const { samples } of film.bands()) hash.update(samples)
  return hash.digest('hex')
}

type Patch = Readonly<{ xMm: number; yMm: number; radiusMm: number }>

/**
 * How dense the marks of a round patch are to light that spreads by a quarter of a millimetre:
 * read through an opening of two pixels (0.25 mm at 200 dpi) everywhere, the reading that 19 in 20
 * stay under.
 */
function markDensity(light: Light, { xMm, yMm, radiusMm }: Patch): number {
  const { widthPx, pixelMm, transmission } = light
  const readings: number[] = []
  const from = (middleMm: number): number => Math.round((middleMm - radiusMm) / pixelMm)
  const across = Math.round((2 * radiusMm) / pixelMm)
  for (let row = from(yMm); row < from(yMm) + across; row += 1) {
    for (let column = from(xMm); column < from(xMm) + across; column += 1) {
      if (Math.hypot(column * pixelMm - xMm, row * pixelMm - yMm) > radiusMm) continue
      const at = row * widthPx + column
      const four = transmission[at] + transmission[at + 1]
      readings.push((four + transmission[at + widthPx] + transmission[at + widthPx + 1]) / 4)
    }
  }
  readings.sort((one, other) => one - other)
  return -Math.log10(readings[Math.floor(readings.length / 20)])
}

/** Light through squares of 2.032 mm: 12 pixels a side at 150 dpi, 24 at 300. */
function squares({ widthPx, heightPx, pixelMm, transmission }: Light): readonly number[] {
  const side = Math.round(2.032 / pixelMm)
  const out: number[] = []
  for (let top = 0; top < 100 * side && top + side <= heightPx; top += side) {
    for (let left = 0; left < 100 * side && left + side <= widthPx; left += side) {
      let sum = 0
      for (let row = top; row < top + side; row += 1) {
        for (let column = left; column < left + side; column += 1) {
          sum += transmission[row * widthPx + column]
        }
      }
      out.push(sum / side ** 2)
    }
  }
  return out
}

/** A passage of the same film that is plainly strong. */
const STRONG = {
  brushAndWash: { xMm: 150, yMm: 145, radiusMm: 3 },
  softPencil: { xMm: 116, yMm: 165, radiusMm: 12 },
  cutMask: { xMm: 40, yMm: 60, radiusMm: 6 },
} satisfies Readonly<Partial<Record<DemoFilmName, Patch>>>

type Drawn = keyof typeof STRONG
const drawn: readonly Drawn[] = ['brushAndWash', 'softPencil', 'cutMask']
const films: readonly DemoFilm[] = drawn.map((name) => DEMO_FILMS[name])

describe.each(drawn.map((name) => [name, DEMO_FILMS[name]] as const))('%s', (name, film) => {
  test('is the same to the byte each time, and another drawing from another seed', async () => {
    const at = { resolutionDpi: 90 }
    const drawn = film.draw(at)
    const first = await digest(drawn)
    expect(await digest(drawn)).toBe(first) // bands can be read again
    expect(await digest(film.draw(at))).toBe(first)
    expect(await digest(film.draw({ ...at, seed: film.seed + 1 }))).not.toBe(first)
  })

  test.each([73, 120])('is true to size at %i dpi', async (resolutionDpi) => {
    const { widthPx, heightPx, pixelUm } = film.draw({ resolutionDpi })
    near(pixelUm, 25400 / resolutionDpi, { within: 1e-9, because: 'an inch is 25.4 mm' })
    const because = 'whole pixels: half of one at most'
    near((widthPx * pixelUm) / 1000, film.widthMm, { within: pixelUm / 2000 + 1e-9, because })
    near((heightPx * pixelUm) / 1000, film.heightMm, { within: pixelUm / 2000 + 1e-9, because })
  })

  test('lies on a sheet of a standard size (ISO 216, from memory: A4 210 × 297, A3 297 × 420)', () => {
    const sides = [film.widthMm, film.heightMm].sort((a, b) => a - b)
    expect([
      [210, 297],
      [297, 420],
    ]).toContainEqual(sides)
    expect(film.resolutionDpi).toBeGreaterThanOrEqual(600)
  })

  test('has its weak passages where it says, weaker than the strong ones and not empty', async () => {
    const light = await lightOf(film.draw({ resolutionDpi: 200 }))
    const strong = markDensity(light, STRONG[name])
    for (const passage of film.weakPassages) {
      const weak = markDensity(light, passage)
      expect(weak).toBeGreaterThan(0.3)
      expect(weak).toBeLessThan(strong - 0.3)
    }
  })

  test.runIf(THOROUGH)(
    'lets as much light through, patch by patch, at 150 dpi as at 300',
    async () => {
      const [coarse, fine] = await Promise.all(
        [150, 300].map(async (resolutionDpi) => lightOf(film.draw({ resolutionDpi }))),
      )
      const coarsePatches = squares(coarse)
      const finePatches = squares(fine)
      const off = coarsePatches.map((light, at) => Math.abs(light - finePatches[at]))
      const mean = off.reduce((sum, difference) => sum + difference, 0) / off.length
      // Grain and dry brush are finer than these pixels, so each pixel of a patch of about 140 (at
      // 150 dpi) is one draw of its light and dark: sd of a patch up to 0.5/√140 = 0.04.
      expect(mean).toBeLessThan(0.01)
      expect(Math.max(...off)).toBeLessThan(0.2)
      const whole = coarsePatches.reduce((sum, light, at) => sum + light - finePatches[at], 0)
      near(whole / off.length, 0, {
        within: 0.006,
        because: 'flanks of strokes are averaged before the tooth, not after',
      })
    },
  )
})

test('inks and masking film are as dense as promised', async () => {
  const [brush, pencil, cut] = await Promise.all(
    films.map(async (film) => lightOf(film.draw({ resolutionDpi: 150 }))),
  )
  const densest = ({ transmission }: Light): number =>
    -Math.log10(transmission.reduce((a, b) => Math.min(a, b)))
  const because = 'what the makers of the marks promise'
  near(densest(brush), 1.85, { within: 0.15, because })
  near(densest(pencil), 1.64, { within: 0.12, because }) // smudges lie over full graphite
  near(densest(cut), 3.7, { within: 0.001, because })
  // The headland's wash, and full ink in the foreground.
  near(markDensity(brush, { xMm: 268, yMm: 79, radiusMm: 4 }), 0.5, { within: 0.08, because })
  near(markDensity(brush, { xMm: 50, yMm: 187, radiusMm: 3 }), 1.75, { within: 0.1, because })
})

test('most of each sheet is clear film', async () => {
  for (const { draw, name } of films) {
    const { transmission } = await lightOf(draw({ resolutionDpi: 60 }))
    const clearShare = transmission.filter((light) => light === 1).length / transmission.length
    expect(clearShare, name).toBeGreaterThan(0.4)
  }
})

test('the blocks under the kettle are flat, whole, and as large as the drawing over them', async () => {
  for (const name of ['pearBlock', 'kettleBlock'] as const) {
    const film = DEMO_FILMS[name]
    const { widthMm, heightMm } = DEMO_FILMS.softPencil
    expect([film.widthMm, film.heightMm]).toEqual([widthMm, heightMm])
    const { transmission } = await lightOf(film.draw({ resolutionDpi: 40 }))
    const flat = transmission.filter((light) => light === 1 || light < 0.001).length
    expect(flat / transmission.length, name).toBeGreaterThan(0.97) // all but the edges
    expect(transmission.some((light) => light < 0.001)).toBe(true)
  }
})
