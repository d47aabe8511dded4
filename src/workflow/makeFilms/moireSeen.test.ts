import FFT from 'fft.js'
import { expect, test } from 'vitest'
import { contrastSensitivity, cyclesPerDegree } from '../../core/halftone/contrastSensitivity.ts'
import { moire } from '../../core/halftone/moire.ts'
import { lu } from '../../core/units/quantity.ts'
import type { Film } from '../../raster/film.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import { forecastFilm } from '../forecastFilm.ts'
import { DEFAULT_SETUP } from '../setup.ts'
import { platesOf } from './plates.ts'
import { planFromJson } from './readPlan.ts'

/** A square of film at 1440 dpi: 9 mm. */
const SIDE = 512
const PIXEL_UM = 25_400 / 1440
const SIDE_CM = (SIDE * PIXEL_UM) / 10_000
const FABRIC = { threadsPerCm: 77, threadUm: 55 }
const VIEWING_MM = 300

type Dots = Readonly<{ rulingPerCm: number; angleDeg: number }>

/** A flat tint as its film, bit for bit as films are made. */
async function tintFilm({ rulingPerCm, angleDeg }: Dots): Promise<Film> {
  const size = { widthPx: SIDE, heightPx: SIDE, pixelUm: PIXEL_UM }
  const grey = new Uint8Array(SIDE * SIDE).fill(140)
  async function* greys() {
    yield { rows: SIDE, samples: grey }
  }
  const tint: Artwork = { space: 'grey', widthPx: SIDE, heightPx: SIDE, bands: greys }
  const halftone = { kind: 'dot', shape: 'round', rulingPerCm, angleDeg }
  const plan = planFromJson(
    JSON.stringify({ mode: 'single', widthMm: 10 * SIDE_CM, resolutionDpi: 1440, halftone }),
  )
  const { plates, tones } = platesOf(tint, plan, size)
  const samples = new Uint8Array(SIDE * SIDE)
  const bits = new Uint8Array(SIDE / 8)
  let y = 0
  for await (const [row = new Uint16Array(SIDE)] of tones.rows()) {
    plates[0]?.screen.drawn(y, row, bits)
    for (let x = 0; x < SIDE; x++) samples[y * SIDE + x] = (bits[x >> 3] >> (7 - (x & 7))) & 1
    y += 1
  }
  async function* bands() {
    yield { top: 0, rows: SIDE, samples }
  }
  return { ...size, transmissionOf: Float32Array.of(1, 1e-4), bands }
}

/** The stencil that the forecast makes of it, on its threads: where ink goes through. */
async function print(dots: Dots): Promise<Float64Array> {
  const film = await tintFilm(dots)
  const question = { doseLu: lu(30), solidDensity: 4 }
  const { classes } = forecastFilm(film, DEFAULT_SETUP, question)
  const opening = Float64Array.from({ length: SIDE }, (_, at) => openPart(at))
  const values = new Float64Array(SIDE * SIDE)
  let y = 0
  for await (const { rows, samples } of classes()) {
    for (let row = 0; row < rows; row++, y++) {
      for (let x = 0; x < SIDE; x++) {
        values[y * SIDE + x] = samples[row * SIDE + x] === 0 ? opening[x] * opening[y] : 0
      }
    }
  }
  return values
}

/** The part of a pixel's width that no thread covers. */
function openPart(at: number): number {
  const fine = 32
  const pitchUm = 10_000 / FABRIC.threadsPerCm
  const parts = Array.from({ length: fine }, (_, part) => (at + (part + 0.5) / fine) * PIXEL_UM)
  return parts.filter((um) => um % pitchUm >= FABRIC.threadUm).length / fine
}

/** Contrast of the pattern at waves a cm to the right and down: of a picture with soft rims. */
function contrastsOf(values: Float64Array): (xPerCm: number, yPerCm: number) => number {
  const soft = Float64Array.from({ length: SIDE }, (_, at) => Math.sin((Math.PI * at) / SIDE) ** 2)
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  const fft = new FFT(SIDE)
  const rows = Array.from({ length: SIDE }, (_, y) => {
    const row = [...values.subarray(y * SIDE, (y + 1) * SIDE)]
    const out = fft.createComplexArray()
    const even = row.map((value, x) => (value / mean - 1) * soft[x] * soft[y])
    fft.transform(out, fft.toComplexArray(even, null))
    return out
  })
  const columns = new Map<number, number[]>()
  const columnOf = (p: number): number[] => {
    const known = columns.get(p)
    if (known !== undefined) return known
    const column = fft.createComplexArray()
    rows.forEach((row, y) => {
      column[2 * y] = row[2 * p]
      column[2 * y + 1] = row[2 * p + 1]
    })
    const out = fft.createComplexArray()
    fft.transform(out, column)
    columns.set(p, out)
    return out
  }
  // between whole waves, and by the soft rims, a pattern spreads over its neighbours
  return (xPerCm, yPerCm) => {
    const [p, q] = [Math.round(xPerCm * SIDE_CM), Math.round(yPerCm * SIDE_CM)]
    let power = 0
    for (let at = 0; at < 9; at++) {
      const column = columnOf((p + (at % 3) - 1 + SIDE) % SIDE)
      const row = (q + Math.floor(at / 3) - 1 + SIDE) % SIDE
      power += column[2 * row] ** 2 + column[2 * row + 1] ** 2
    }
    // a wave of contrast c under two raised cosines has a power of (3 c / 16)²
    return (Math.sqrt(power) * 16) / 3 / SIDE ** 2
  }
}

const foretold = (dots: Dots) =>
  moire({ ...dots, threadsPerCm: FABRIC.threadsPerCm, meshAngleDeg: 0, viewingMm: VIEWING_MM })

/** What the eye makes of each beat, as the print shows it, best seen first. */
function seenIn(values: Float64Array, dots: Dots): readonly number[] {
  const contrastAt = contrastsOf(values)
  return foretold(dots)
    .beats.filter(({ perCm }) => perCm > 4 / SIDE_CM && perCm < 0.8 * dots.rulingPerCm)
    .map(({ perCm, angleDeg }) => {
      const turn = (angleDeg * Math.PI) / 180
      const contrast = contrastAt(perCm * Math.cos(turn), -perCm * Math.sin(turn))
      return contrast * contrastSensitivity(cyclesPerDegree(perCm, { viewingMm: VIEWING_MM }))
    })
    .toSorted((one, other) => other - one)
}

test('the beat that is foretold stands in the forecast’s print, and is gone where the advice is taken', async () => {
  const asked = { rulingPerCm: 24, angleDeg: 45 }
  const { verdict, beats, advice } = foretold(asked)
  expect(verdict).toBe('strong')
  const values = await print(asked)
  const [before = 0] = seenIn(values, asked)
  const { perCm, angleDeg } = beats[0]
  const contrastAt = contrastsOf(values)
  const turned = (deg: number): number => {
    const turn = ((angleDeg + deg) * Math.PI) / 180
    return contrastAt(perCm * Math.cos(turn), -perCm * Math.sin(turn))
  }
  // as coarse in other directions there is next to nothing
  expect(turned(0)).toBeGreaterThan(3 * Math.max(turned(20), turned(33), turned(-27)))
  const after = await print(advice)
  const [left = 0] = seenIn(after, advice)
  expect(left, JSON.stringify({ before, left, advice })).toBeLessThan(0.4 * before)
  // nor where it was
  const gone = contrastsOf(after)(perCm * Math.cos((angleDeg * Math.PI) / 180), 0)
  expect(gone).toBeLessThan(0.4 * turned(0))
})
