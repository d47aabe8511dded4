import { expect, test } from 'vitest'
import {
  clearFilm,
  densitiesOf,
  type FilmDensities,
  strokeOf,
  wander,
} from '../../fixtures/photos/film.ts'
import { photoOfFilm } from '../../fixtures/photos/photoOfFilm.ts'
import { clouds, seeded } from '../../fixtures/photos/random.ts'
import { readPhoto } from '../../src/workflow/readPhoto/readPhoto.ts'
import { byTruth, opened } from './whatIsRead.testing.ts'

/** A way of drawing (judged): how wide, how dense, how soft, and the tooth of the film in it. */
type Hand = Readonly<{
  medium: string
  widthMm: readonly [number, number]
  density: readonly [number, number]
  softMm: number
  tooth?: Readonly<{ mm: number; share: number }>
}>

const HANDS: readonly Hand[] = [
  {
    medium: 'soft pencil',
    widthMm: [0.8, 2.5],
    density: [0.7, 1.1],
    softMm: 0.2,
    tooth: { mm: 0.25, share: 0.3 },
  },
  { medium: 'fine pigment pen', widthMm: [0.8, 1.2], density: [1, 1.15], softMm: 0.03 },
  {
    medium: 'graphite wash',
    widthMm: [4, 12],
    density: [0.3, 0.8],
    softMm: 2,
    tooth: { mm: 6, share: 0.25 },
  },
  {
    medium: 'litho crayon',
    widthMm: [2, 5],
    density: [0.9, 1.4],
    softMm: 0.3,
    tooth: { mm: 0.5, share: 0.4 },
  },
  { medium: 'drawing ink', widthMm: [0.8, 4], density: [1.4, 1.7], softMm: 0.03 },
  { medium: 'laser toner', widthMm: [1, 6], density: [1.85, 1.95], softMm: 0.02 },
  { medium: 'inkjet film', widthMm: [1, 8], density: [2.7, 2.75], softMm: 0.02 },
  { medium: 'cut masking film', widthMm: [3, 15], density: [3.8, 3.9], softMm: 0.01 },
]

function drawnBy({ widthMm, density, softMm, tooth }: Hand): FilmDensities {
  const film = clearFilm({ widthMm: 120, heightMm: 90 }, 150)
  const random = seeded(31)
  for (let stroke = 0; stroke < 16; stroke += 1) {
    const at = { x: random.between(28, 92), y: random.between(22, 68) }
    const points = wander(random, { ...at, stepMm: 4, steps: 6 })
    const [wide, dense] = [random.between(...widthMm), random.between(...density)]
    strokeOf(film, { points, widthMm: wide, density: dense, softMm })
  }
  if (tooth !== undefined) {
    const rough = clouds(10, tooth.mm)
    film.values.forEach((there, at) => {
      const [x, y] = [(at % film.widthPx) * 0.15, Math.floor(at / film.widthPx) * 0.15]
      film.values[at] = Math.max(0, there * (1 + tooth.share * rough(x, y)))
    })
  }
  return densitiesOf(film)
}

async function readOf(hand: Hand, wedge: null | undefined) {
  const film = drawnBy(hand)
  const camera = { widthPx: 900, heightPx: 700 }
  const { jpeg, truth } = await photoOfFilm({
    film,
    seed: 2,
    camera,
    ...(wedge === null ? { wedge } : {}),
  })
  return readPhoto(await opened(jpeg), byTruth(truth)).reading
}

test.each(HANDS)('$medium is what its marks look like, or one of the two named', async (hand) => {
  const { looksLike, marks, asks } = await readOf(hand, undefined)
  const names = looksLike.media.map(({ name }) => name)
  expect(names).toContain(hand.medium)
  expect(looksLike.says).toMatch(
    names.length === 1 ? /^Looks like [a-z ]+\.$/ : /^Looks like .* or /,
  )
  expect(marks.longCount).toBeGreaterThan(0)
  const middle = marks.density?.middle ?? 0
  expect(middle).toBeGreaterThan(0.8 * Math.min(hand.density[0], 3)) // denser is not told
  if (hand.density[1] < 2.5) expect(middle).toBeLessThan(1.25 * hand.density[1])
  for (const mark of marks.weakest) expect(mark.density).toBeLessThan(1.3 * hand.density[1])
  expect(asks.join(' ')).toMatch(/mirrored\?.*right way up\?/)
})

test('without a wedge printed film and cut film are both too dense to tell apart, and that is said', async () => {
  const printed = HANDS.find(({ medium }) => medium === 'inkjet film')
  if (printed === undefined) throw new Error('no such hand')
  const { looksLike } = await readOf(printed, null)
  expect(looksLike.media.map(({ name }) => name).sort()).toEqual([
    'cut masking film',
    'inkjet film',
  ])
  expect(looksLike.says).toMatch('the photo cannot tell which')
})
