import { leastSquares } from '../inspect/leastSquares.ts'
import { LEAST_LIGHT } from './lightCode.ts'
import { lightWrinkles, type Residue } from './lightWrinkles.ts'
import type { Sheet } from './photoLight.ts'

/** Light that comes through clear film, over the sheet. */
export type ClearLight = Readonly<{
  /** log10 of the light at a place of the coarse sheet, in its pixels. */
  logAt: (x: number, y: number) => number
  /** How much denser the clear film is than what lies around it; null where that was not seen. */
  base: number | null
  /** Standard deviation of clear places about it, in density. */
  scatter: number
  /** The same about its smooth part alone: large where no light table is. */
  unevenness: number
  /** Part of the sheet that is clear. */
  clearShare: number
  /** Part of sixteen fields of the sheet in which some clear film is seen. */
  coveredShare: number
  /** The commonest even density under the clear light, and its part of the sheet: a film's base, if large. */
  commonest: Readonly<{ density: number; share: number }>
  /** Least light over greatest, on the sheet. */
  evenness: number
}>

/** Where the sheet lies on the coarse picture, in its pixels. */
export type Inside = Readonly<{
  left: number
  top: number
  right: number
  bottom: number
}>

/** Widths of the band below the light that still counts, pass by pass, in density. */
const PASSES = [0.5, 0.3, 0.2, 0.12, 0.07, 0.05, 0.035, 0.03] as const
/** As clear as can be told from the light's own wrinkles (judged). */
const CLEAR_WITHIN = 0.035
/** Fields of the sheet, a side. */
const FIELDS = 4
const POINTS = 5000

type Place = Readonly<{
  u: number
  v: number
  log: number
  inside: boolean
  field: number
}>

/**
 * The light without the film, from the film's clear places: a smooth surface of log light that lies
 * on the brightest of what it covers, marks falling away below it. A light table around the sheet
 * helps, brighter by the film's base.
 *
 * @param coarse light of sheet and surroundings; NaN where nothing is seen
 * @returns null where the photo shows no light
 */
export function clearLight(coarse: Sheet, inside: Inside): ClearLight | null {
  const places = placesOf(coarse, inside)
  const film = places.filter((place) => place.inside)
  if (film.length < 100) return null
  const first = fitted(film, { degree: 2, base: false })
  if (first === null) return null
  const around = places.filter((place) => !place.inside)
  const enough = coverage(film, first).fields >= 10
  const surface =
    withAround({ film, around }) ??
    (enough ? fitted(film, { degree: 4, base: false, start: first }) : first) ??
    first
  const { clear, fields, scatter } = coverage(film, surface)
  const wrinkles = lightWrinkles(residues(surface.base === null ? film : places, surface), coarse)
  const at = (u: number, v: number): number => surface.at(u, v) + wrinkles(u, v)
  return {
    logAt: (x, y) => at((2 * x) / coarse.widthPx - 1, (2 * y) / coarse.heightPx - 1),
    base: surface.base,
    scatter: coverage(film, { at }).scatter,
    unevenness: scatter,
    clearShare: clear / film.length,
    coveredShare: fields / FIELDS ** 2,
    commonest: commonest(film, surface),
    evenness: evenness(film, surface),
  }
}

/** How much brighter than a surface each place is. */
function* residues(places: readonly Place[], { at, base }: Surface): Generator<Residue> {
  for (const { u, v, log, inside } of places) {
    yield { u, v, log: log - at(u, v) - (inside ? 0 : (base ?? 0)) }
  }
}

type Surface = Readonly<{
  at: (u: number, v: number) => number
  base: number | null
}>

/** null where what lies around is no light table. */
function withAround({
  film,
  around,
}: Readonly<{
  film: readonly Place[]
  around: readonly Place[]
}>): Surface | null {
  if (around.length < film.length / 20) return null
  const ring = fitted(around, { degree: 2, base: false })
  if (ring === null) return null
  const off = around.map(({ u, v, log }) => Math.abs(log - ring.at(u, v))).sort((a, b) => a - b)
  if ((off[off.length >> 1] ?? 1) > 0.05) return null
  const steps = film.map(({ u, v, log }) => ring.at(u, v) - log).sort((a, b) => a - b)
  const base = Math.min(0.6, Math.max(0, steps[Math.floor(steps.length / 20)] ?? 0))
  const start = { at: (u: number, v: number) => ring.at(u, v) - base, base }
  return fitted([...film, ...around], { degree: 4, base: true, start }) ?? start
}

function placesOf({ widthPx, heightPx, values }: Sheet, inside: Inside): readonly Place[] {
  const step = Math.max(1, Math.round(Math.sqrt((widthPx * heightPx) / POINTS)))
  const places: Place[] = []
  for (let y = step >> 1; y < heightPx; y += step) {
    for (let x = step >> 1; x < widthPx; x += step) {
      const light = values[y * widthPx + x]
      if (!(light > LEAST_LIGHT)) continue
      const [across, down] = [
        (x + 0.5 - inside.left) / (inside.right - inside.left),
        (y + 0.5 - inside.top) / (inside.bottom - inside.top),
      ]
      const within = Math.min(across, down, 1 - across, 1 - down)
      if (Math.abs(within) < 0.012) continue // the sheet's own edge
      places.push({
        u: (2 * (x + 0.5)) / widthPx - 1,
        v: (2 * (y + 0.5)) / heightPx - 1,
        log: Math.log10(light),
        inside: within > 0,
        field: FIELDS * Math.floor(FIELDS * down) + Math.floor(FIELDS * across),
      })
    }
  }
  return places
}

function fitted(
  places: readonly Place[],
  { degree, base, start }: Readonly<{ degree: number; base: boolean; start?: Surface }>,
): Surface | null {
  let surface = start ?? null
  const top = places.map(({ log }) => log).sort((a, b) => a - b)
  const brightest = top[Math.floor(0.97 * top.length)] ?? 0
  const passes = start === undefined ? PASSES : PASSES.slice(4)
  const terms = termsOf(degree)
  const width = terms.length + 1
  const rows = rowsOf(places, { terms, base })
  const row = new Float64Array(width)
  const light = new Float64Array(places.length)
  places.forEach(({ u, v, inside }, at) => {
    light[at] = surface === null ? brightest : surface.at(u, v) + (inside ? 0 : (surface.base ?? 0))
  })
  for (const band of passes) {
    const sums = leastSquares(width)
    for (let at = 0; at < places.length; at += 1) {
      const { log } = places[at]
      const off = log - light[at]
      const weight = 1 / (1 + (off / (off > 0 ? 2 * band : band)) ** 2) ** 2
      if (weight < 1e-3) continue
      for (let term = 0; term < width; term += 1) row[term] = rows[at * width + term]
      sums.add(row, log, weight * (off > 0 ? 1.5 : 1))
    }
    if (!base) sums.hold(terms.length, { towards: 0, weight: 1 })
    for (let at = 3; at < terms.length; at += 1) sums.hold(at, { towards: 0, weight: 0.5 })
    const found = sums.solve()
    if (found === null) return surface
    surface = surfaceOf(found, { terms, base })
    for (let at = 0; at < places.length; at += 1) {
      let sum = 0
      for (let term = 0; term < width; term += 1) sum += found[term] * rows[at * width + term]
      light[at] = sum
    }
  }
  return surface
}

/** The terms of each place, and whether it lies around the sheet, place by place. */
function rowsOf(
  places: readonly Place[],
  { terms, base }: Readonly<{ terms: readonly Term[]; base: boolean }>,
): Float64Array {
  const width = terms.length + 1
  const rows = new Float64Array(places.length * width)
  places.forEach(({ u, v, inside }, at) => {
    writeTerms(terms, u, v, rows.subarray(at * width, (at + 1) * width))
    rows[at * width + terms.length] = base && !inside ? 1 : 0
  })
  return rows
}

function surfaceOf(
  found: Float64Array,
  { terms, base }: Readonly<{ terms: readonly Term[]; base: boolean }>,
): Surface {
  const row = new Float64Array(terms.length + 1)
  return {
    base: base ? found[terms.length] : null,
    at: (u, v) => {
      writeTerms(terms, u, v, row)
      let sum = 0
      for (let at = 0; at < terms.length; at += 1) sum += found[at] * row[at]
      return sum
    },
  }
}

type Term = readonly [number, number]

/** Powers of u and v up to a degree, the low ones first. */
function termsOf(degree: number): readonly Term[] {
  return Array.from({ length: degree + 1 }, (_, whole) =>
    Array.from({ length: whole + 1 }, (__, down): Term => [whole - down, down]),
  ).flat()
}

/** Legendre's polynomials, so that the sums stay far from singular. */
function writeTerms(terms: readonly Term[], u: number, v: number, out: Float64Array): void {
  for (let at = 0; at < terms.length; at += 1) {
    const [across, down] = terms[at]
    out[at] = legendre(across, u) * legendre(down, v)
  }
}

function legendre(degree: number, x: number): number {
  const xx = x * x
  switch (degree) {
    case 0:
      return 1
    case 1:
      return x
    case 2:
      return (3 * xx - 1) / 2
    case 3:
      return (x * (5 * xx - 3)) / 2
    default:
      return ((35 * xx - 30) * xx + 3) / 8
  }
}

function coverage(
  film: readonly Place[],
  surface: Pick<Surface, 'at'>,
): Readonly<{ clear: number; fields: number; scatter: number }> {
  const counts = new Uint32Array(FIELDS ** 2)
  let [clear, squares] = [0, 0]
  for (const { u, v, log, field } of film) {
    const off = log - surface.at(u, v)
    if (Math.abs(off) > CLEAR_WITHIN) continue
    clear += 1
    squares += off * off
    counts[field] += 1
  }
  const least = film.length / FIELDS ** 2 / 40
  return {
    clear,
    fields: counts.filter((count) => count > least).length,
    scatter: clear === 0 ? CLEAR_WITHIN : Math.sqrt(squares / clear),
  }
}

const LEVEL = { from: 0.03, step: 0.01, count: 60 } as const

function commonest(
  film: readonly Place[],
  surface: Surface,
): Readonly<{ density: number; share: number }> {
  const counts = new Uint32Array(LEVEL.count)
  for (const { u, v, log } of film) {
    const level = Math.floor((surface.at(u, v) - log - LEVEL.from) / LEVEL.step)
    if (level >= 0 && level < LEVEL.count) counts[level] += 1
  }
  // three levels together: what grain spreads
  const around = Array.from(
    { length: LEVEL.count - 2 },
    (_, at) => counts[at] + counts[at + 1] + counts[at + 2],
  )
  const most = Math.max(...around)
  const at = around.indexOf(most)
  const mean = (counts[at + 1] + 2 * counts[at + 2]) / Math.max(1, most)
  return {
    density: LEVEL.from + LEVEL.step * (at + 0.5 + mean),
    share: most / film.length,
  }
}

function evenness(film: readonly Place[], surface: Surface): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const { u, v } of film) {
    const log = surface.at(u, v)
    low = Math.min(low, log)
    high = Math.max(high, log)
  }
  return 10 ** (low - high)
}
