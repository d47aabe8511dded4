import { cureDepthUm } from '../core/emulsion/doses.ts'
import { lu } from '../core/units/quantity.ts'
import type { Film } from '../raster/film.ts'
import { type LeakCode, leakOfCode } from '../raster/leakCode.ts'
import { leakMap } from '../raster/leakMap.ts'
import type { Rgb } from '../raster/stencilPicture.ts'
import { setupDoses, spreadOf } from './exposurePhysics.ts'
import type { Setup } from './setup.ts'

/** The five words for how a screen came out. */
export type PicturedGrade = 'washed off' | 'soft' | 'good' | 'filling' | 'filled'

/** What each word looks like at the sink, for people. */
export const GRADE_LOOKS: Readonly<Record<PicturedGrade, string>> = {
  'washed off': 'The ground went with the water: bare mesh where stencil should be.',
  soft: 'The marks are open and the ground is there, but slimy on the squeegee side.',
  good: 'The marks are open to their thinnest ends and the ground is firm.',
  filling: 'A veil stays in the palest marks; the strong ones are open.',
  filled: 'Most marks are shut.',
}

/** A washed-out screen held against the light. */
export type GradePicture = Readonly<{ rgb: Uint8Array; widthPx: number; heightPx: number }>

/** Emulsion hard through, cured half way and in a thin skin, and the bare mesh: threads, light. */
const HARD: Rgb = [0x0f, 0x50, 0x4c]
const SLIME: Rgb = [0x4b, 0x86, 0x7c]
const VEIL: Rgb = [0xa9, 0xc4, 0xb6]
const LIGHT: Rgb = [0xf4, 0xee, 0xd8]
const THREAD: Rgb = [0xc9, 0xb9, 0x86]

/** Shares of marks' leak by which the five doses are found: a palest and a middling mark. */
type Leaks = Readonly<{ pale: number; middling: number }>

/**
 * The dose of each grade for marks that leak so much: under hold; over hold and far under full;
 * between the two ends of good; a little over where the pale ones skin over; over where most do.
 *
 * @source grade-likelihood
 */
export function gradeDoses(
  setup: Setup,
  { pale, middling }: Leaks,
): Readonly<Record<PicturedGrade, number>> {
  const { gelDoseLu, holdDoseLu, throughDoseLu } = setupDoses(setup)
  const fogLu = gelDoseLu / pale
  const soundLu = Math.min(throughDoseLu, 0.85 * fogLu)
  return {
    'washed off': 0.8 * holdDoseLu,
    soft: Math.sqrt(holdDoseLu * soundLu),
    good: soundLu,
    filling: fogLu * 1.3,
    filled: Math.max(1.5 * fogLu, 1.25 * (gelDoseLu / middling)),
  }
}

/**
 * What a screen looks like after washout at a dose, against the light: at each pixel the depth to
 * which it cured decides whether it holds, and how thick it is. The mesh is drawn true to size.
 *
 * @param film small: it is held whole
 * @param options `leftShare`: of the dose the left edge gets so much, 0..1, and more to the right
 * @source jacobs1992, spread-contract
 */
export async function gradePicture(
  film: Film,
  setup: Setup,
  { doseLu, leftShare = 1 }: Readonly<{ doseLu: number; leftShare?: number }>,
): Promise<GradePicture> {
  const { widthPx, heightPx, pixelUm } = film
  const rgb = new Uint8Array(3 * widthPx * heightPx)
  const lightAcross = openShares(widthPx, { pixelUm, fabric: setup.fabric })
  const lightDown = openShares(heightPx, { pixelUm, fabric: setup.fabric })
  const strips = leftShare === 1 ? 1 : STRIPS
  const cured = Array.from({ length: strips }, (_, at) =>
    cureTable(setup, doseLu * leftShare ** (1 - at / Math.max(1, strips - 1))),
  )
  for await (const { top, codes, filmCodes } of leakMap(film, spreadOf(setup))) {
    for (let at = 0; at < codes.length; at += 1) {
      const here = top * widthPx + at
      const open = (lightAcross[here % widthPx] ?? 0) * (lightDown[Math.floor(here / widthPx)] ?? 0)
      const mesh = mix(THREAD, LIGHT, open)
      const isGround = leakOfCode(filmCodes[at] ?? 0) > GROUND_SHARE
      const strip = Math.floor(((here % widthPx) / widthPx) * strips)
      const is = cured[strip]?.(codes[at] ?? 0) ?? 'gone'
      rgb.set(colourOf(is, { isGround, mesh }), 3 * here)
    }
  }
  return { rgb, widthPx, heightPx }
}

/** Light that rises from left to right rises in so many strips. */
const STRIPS = 24

/** Film that lets so much through is clear: what lies under it is ground. */
const GROUND_SHARE = 0.7

/** What became of the coat: gone, a skin that holds on nothing, or so deep a share of it hard. */
type Cured = 'gone' | 'skin' | number

function cureTable(setup: Setup, doseLu: number): (code: LeakCode) => Cured {
  const { gelDoseLu, holdDoseLu } = setupDoses(setup)
  const { emulsion, contact } = setup
  const known = new Map<LeakCode, Cured>()
  const curedAt = (surfaceLu: number): Cured => {
    if (surfaceLu < gelDoseLu) return 'gone'
    if (surfaceLu < holdDoseLu) return 'skin'
    const bareLu = lu(surfaceLu / 10 ** contact.filmBaseDensity)
    return Math.min(1, cureDepthUm(emulsion, bareLu) / emulsion.thicknessUm)
  }
  return (code) => {
    const cured = known.get(code) ?? curedAt(doseLu * leakOfCode(code))
    known.set(code, cured)
    return cured
  }
}

/** For each pixel of a row the share of it that lies between threads. */
function openShares(
  countPx: number,
  { pixelUm, fabric }: Readonly<{ pixelUm: number; fabric: Setup['fabric'] }>,
): Float64Array {
  const pitchUm = 10_000 / fabric.threadsPerCm
  const openBefore = (um: number): number => {
    const threads = Math.floor(um / pitchUm)
    return (
      threads * (pitchUm - fabric.threadUm) + Math.max(0, um - threads * pitchUm - fabric.threadUm)
    )
  }
  return Float64Array.from(
    { length: countPx },
    (_, at) => (openBefore((at + 1) * pixelUm) - openBefore(at * pixelUm)) / pixelUm,
  )
}

function colourOf(
  cured: Cured,
  { isGround, mesh }: Readonly<{ isGround: boolean; mesh: Rgb }>,
): Rgb {
  if (cured === 'gone') return mesh
  // a skin over ground has nothing to hold it; in a mark the ground beside it does
  if (cured === 'skin') return isGround ? mesh : mix(mesh, VEIL, 0.75)
  return mix(SLIME, HARD, cured)
}

function mix(from: Rgb, to: Rgb, part: number): Rgb {
  const at = (index: 0 | 1 | 2): number =>
    Math.round(from[index] + (to[index] - from[index]) * part)
  return [at(0), at(1), at(2)]
}
