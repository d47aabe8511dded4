import { expect, test } from 'vitest'
import { near } from '../../core/units/near.testing.ts'
import { perCm, um } from '../../core/units/quantity.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { keptTones } from '../../raster/films/keptTones.ts'
import { isEmptyPlate } from './emptyPlate.ts'
import { filmSize } from './filmSize.ts'
import { loupeDots } from './loupeDots.ts'
import { partedInks, plateScreen, platesOf } from './plates.ts'
import { previewFindings } from './previewFindings.ts'
import { previewPlates } from './previewPlates.ts'
import { planFromJson } from './readPlan.ts'

/** A grey picture by its values. */
function grey(widthPx: number, heightPx: number, at: (x: number, y: number) => number): Artwork {
  const samples = Uint8Array.from({ length: widthPx * heightPx }, (_, place) =>
    at(place % widthPx, Math.floor(place / widthPx)),
  )
  async function* bands() {
    yield { rows: heightPx, samples }
  }
  return { space: 'grey', widthPx, heightPx, bands }
}

const PLAN = {
  widthMm: 100,
  resolutionDpi: 508,
  mode: 'single',
  halftone: { kind: 'dot', shape: 'round', rulingPerCm: 20, angleDeg: 22.5 },
}
const planOf = (more: object) => planFromJson(JSON.stringify({ ...PLAN, ...more }))
const FABRIC = { threadsPerCm: perCm(100), threadUm: um(40) }

test('a wedge’s pale end fills, its full end falls off; a range that the fabric holds has neither', async () => {
  const wedge = grey(400, 200, (x) => 255 - Math.floor((256 * x) / 400))
  const plan = planOf({})
  const plates = await previewPlates(wedge, { plan, widthMm: 100 })
  near(plates.plates[0]?.coverageShare ?? 0, 0.5, { within: 0.005, because: 'an even wedge' })
  const { findings, holds } = previewFindings(plates, { plan, fabric: FABRIC })
  expect(findings.map(({ kind }) => kind).toSorted()).toEqual(['falls', 'fills'])
  const fills = findings.find(({ kind }) => kind === 'fills')
  near((fills?.box.right ?? 0) / 400, holds?.least ?? 1, { within: 0.03, because: 'squares of 12' })
  const tones = { least: holds?.least, most: holds?.most }
  const held = planOf({ inks: [{ name: 'black', tones }] })
  const within = await previewPlates(wedge, { plan: held, widthMm: 100 })
  expect(previewFindings(within, { plan: held, fabric: FABRIC }).findings).toEqual([])
  // scattered dots are wide enough whatever the tone
  const scatters = planOf({ inks: [{ name: 'black', tones: { ...tones, beyond: 'scatter' } }] })
  const beyond = await previewPlates(wedge, { plan: scatters, widthMm: 100 })
  expect(previewFindings(beyond, { plan: scatters, fabric: FABRIC }).findings).toEqual([])
})

test('the loupe shows the very dots of the film', async () => {
  const picture = grey(200, 100, (x, y) => (37 * x + 91 * y) % 256)
  const plan = planOf({})
  const size = filmSize(plan, { proportion: 2, widthMm: null })
  const { plates, tones } = platesOf(picture, plan, size)
  const at = { xPx: 900, yPx: 410 }
  const sidePx = 60
  const whole: number[] = []
  let y = 0
  for await (const [row] of tones.rows()) {
    const bits = new Uint8Array(Math.ceil(size.widthPx / 8))
    plates[0]?.screen.drawn(y, row ?? new Uint16Array(0), bits)
    if (y >= at.yPx && y < at.yPx + sidePx) {
      for (let x = at.xPx; x < at.xPx + sidePx; x++) {
        whole.push(((bits[x >> 3] ?? 0) >> (7 - (x & 7))) & 1)
      }
    }
    y += 1
  }
  // 10 film pixels a pixel of the artwork: the part from 80, 35 holds the square with a rim
  const part = grey(30, 20, (x, down) => (37 * (x + 80) + 91 * (down + 35)) % 256)
  const { black } = await loupeDots(
    { part, leftPx: 80, topPx: 35, widthPx: 200, heightPx: 100 },
    { plan, size, plate: 0, screen: plateScreen(plan, 0, size), at, sidePx },
  )
  expect([...black]).toEqual(whole)
  expect(whole.includes(1) && whole.includes(0)).toBe(true)
})

test('an ink takes the colours that it is told to, whatever its own: merged and printed in another', async () => {
  const red: readonly number[] = [0xc4, 0x34, 0x2c]
  const orange: readonly number[] = [0xf0, 0xa0, 0x28]
  const blue: readonly number[] = [0x24, 0x56, 0x78]
  const samples = Uint8Array.from(
    Array.from(
      { length: 90 * 20 },
      (_, at) => [red, orange, blue][Math.floor((at % 90) / 30)],
    ).flatMap((colour) => colour ?? red),
  )
  async function* bands() {
    yield { rows: 20, samples }
  }
  const stripes: Artwork = { space: 'rgb', widthPx: 90, heightPx: 20, bands }
  const inks = [
    // red and orange together are printed green; blue by its own
    {
      name: 'green',
      lab: [50, -45, 30],
      takes: [
        [46, 53, 38],
        [73, 21, 69],
      ],
    },
    { name: 'blue', lab: [35, -7, -24] },
  ]
  const { plates } = await previewPlates(stripes, {
    plan: planOf({ mode: 'line', inks }),
    widthMm: 100,
  })
  expect(plates.map(({ name }) => name)).toEqual(['green', 'blue'])
  const [green, own] = plates.map(({ coverageShare }) => coverageShare)
  near(green ?? 0, 2 / 3, { within: 0.02, because: 'two stripes of three, edges apart' })
  near(own ?? 0, 1 / 3, { within: 0.02, because: 'one of three' })
})

test('invariant: plates of tones that were kept are those of tones parted anew, however often they are looked at', async () => {
  const samples = Uint8Array.from({ length: 3 * 60 * 40 }, (_, at) => (53 * at + (at >> 5)) % 256)
  async function* bands() {
    yield { rows: 40, samples }
  }
  const artwork: Artwork = { space: 'rgb', widthPx: 60, heightPx: 40, bands }
  const inks = [
    { name: 'sun', lab: [80, 5, 75], tones: { least: 0.1, most: 0.8 }, spreadUm: 2000 },
    { name: 'sea', lab: [40, -10, -30], opacity: 0.4 },
  ]
  for (const mode of ['spot', 'line', 'process']) {
    const own = mode === 'process' ? {} : { inks }
    const plan = planOf({ mode, ...own, underbase: { name: 'white', chokeUm: 1700 } })
    const parted = await keptTones(partedInks(artwork, plan, { soft: true }))
    const anew = await previewPlates(artwork, { plan, widthMm: 100 })
    for (let look = 0; look < 2; look++) {
      expect(await previewPlates(artwork, { plan, widthMm: 100, parted })).toEqual(anew)
    }
  }
})

test('a film is called empty just where its dots have no pixel, or where nothing is black without them', async () => {
  // 40 lines per cm at 508 dpi: a dot has 25 pixels to be made of, and 1/255 of them is none
  const dots = { kind: 'dot', shape: 'round', rulingPerCm: 40, angleDeg: 0 }
  for (const [value, halftone] of [
    [255, dots],
    [254, dots],
    [250, dots],
    [240, dots],
    [254, { kind: 'dot', shape: 'round', rulingPerCm: 8, angleDeg: 0 }],
    [160, null],
    [90, null],
  ] as const) {
    const plan = planOf({ halftone, widthMm: 10 })
    const flat = grey(200, 200, () => value)
    const size = filmSize(plan, { proportion: 1, widthMm: null })
    const { plates } = await previewPlates(flat, { plan, widthMm: 10 })
    const said = isEmptyPlate(plates[0]?.tones ?? new Uint8Array(0), plan, () =>
      plateScreen(plan, 0, size),
    )
    let black = 0
    const film = platesOf(flat, plan, size)
    let y = 0
    for await (const [row] of film.tones.rows()) {
      const bits = new Uint8Array(Math.ceil(size.widthPx / 8))
      film.plates[0]?.screen.drawn(y, row ?? new Uint16Array(0), bits)
      for (const byte of bits) if (byte > 0) black += 1
      y += 1
    }
    expect([value, halftone?.rulingPerCm, said]).toEqual([
      value,
      halftone?.rulingPerCm,
      black === 0,
    ])
  }
})
