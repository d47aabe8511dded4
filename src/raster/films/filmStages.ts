import { WHITE_D50, xyz50FromLab } from '../../core/colour/lab.ts'
import type { Lab, Triple } from '../../core/colour/space.ts'
import { LINEAR_FROM_XYZ50, storedLight } from '../../core/colour/srgb.ts'

/** A plate as somebody looks at it. */
export type SeenPlate = Readonly<{
  lab: Lab
  opacity: number
  /** How much of each place it covers, 0 … 255, row by row. */
  tones: Uint8Array
  /** What each of these 256 was measured to print as; left out: as it is on the film. */
  printed?: Uint8Array
}>

/** Black of a printed film, seen on a light table: a little light comes through. */
const FILM_SHARE = 0.97
const LEVELS = 4096
const STORED: Uint8Array = Uint8Array.from({ length: LEVELS + 1 }, (_, level) =>
  Math.round(255 * storedLight(level / LEVELS)),
)

/**
 * What lies on the light table when the first films are rolled back: stage k is the print of the
 * first k plates, with the films of all others over it. The last is the print.
 *
 * Where dots fall on each other by chance, laying inks one after another in the mean is Neugebauer's
 * sum over their combinations: what an ink shows is linear in what lies under it.
 *
 * @param plates first printed first
 * @param paper null: white
 * @returns RGBA of each stage
 * @source neugebauer, ink-over-ink
 */
export function filmStages(
  plates: readonly SeenPlate[],
  { places, paper }: Readonly<{ places: number; paper: Lab | null }>,
): readonly Uint8ClampedArray<ArrayBuffer>[] {
  const repeats = repeatsOf(plates, places)
  const ground = paper === null ? WHITE_D50 : xyz50FromLab(paper)
  const stages = Array.from({ length: plates.length + 1 }, () => new Uint8ClampedArray(4 * places))
  const pixels = stages.map(({ buffer }) => new Uint32Array(buffer))
  const laid = plates.map(inkOf)
  const shares = new Float64Array(plates.length)
  const printed = new Float64Array(plates.length)
  for (let at = 0; at < places; at++) {
    if (repeats[at] === 1) {
      for (const stage of pixels) stage[at] = stage[at - 1]
      continue
    }
    // light through all films, and then through one fewer each time
    for (let plate = 0; plate < laid.length; plate++) {
      const tone = plates[plate].tones[at]
      shares[plate] = tone / 255
      printed[plate] = (plates[plate].printed?.[tone] ?? tone) / 255
    }
    layAll(at, { ground, laid, shares, printed, stages })
  }
  return stages
}

/** 1 where a place has the tones of the one before: most of a print is flat. */
function repeatsOf(plates: readonly SeenPlate[], places: number): Uint8Array {
  const repeats = new Uint8Array(places).fill(1)
  repeats[0] = 0
  for (const { tones } of plates) {
    for (let at = 1; at < places; at++) if (tones[at] !== tones[at - 1]) repeats[at] = 0
  }
  return repeats
}

/** What an ink shows by itself and what it lets through, for X, Y and Z. */
type LaidInk = Readonly<{ own: readonly number[]; clear: readonly number[] }>

function inkOf({ lab, opacity }: SeenPlate): LaidInk {
  const solid = xyz50FromLab(lab)
  return {
    own: solid.map((value) => value * opacity),
    clear: solid.map((value, channel) => (value * (1 - opacity)) / WHITE_D50[channel]),
  }
}

/** One place in all stages: the mean of an ink after another over what is there. */
function layAll(
  at: number,
  {
    ground,
    laid,
    shares,
    printed,
    stages,
  }: Readonly<{
    ground: Triple
    laid: readonly LaidInk[]
    /** How much of the film is black, and how much of the print is inked. */
    shares: Float64Array
    printed: Float64Array
    stages: readonly Uint8ClampedArray[]
  }>,
): void {
  let [x, y, z] = ground
  for (let stage = 0; stage <= laid.length; stage++) {
    let light = 1
    for (let film = stage; film < laid.length; film++) light *= 1 - FILM_SHARE * shares[film]
    show(stages[stage], 4 * at, light * x, light * y, light * z)
    const share = stage < laid.length ? printed[stage] : 0
    if (share === 0) continue
    const { own, clear } = laid[stage]
    x += share * (own[0] + (clear[0] - 1) * x)
    y += share * (own[1] + (clear[1] - 1) * y)
    z += share * (own[2] + (clear[2] - 1) * z)
  }
}

const [RED, GREEN, BLUE] = LINEAR_FROM_XYZ50

function show(rgba: Uint8ClampedArray, at: number, x: number, y: number, z: number): void {
  rgba[at] = stored(RED[0] * x + RED[1] * y + RED[2] * z)
  rgba[at + 1] = stored(GREEN[0] * x + GREEN[1] * y + GREEN[2] * z)
  rgba[at + 2] = stored(BLUE[0] * x + BLUE[1] * y + BLUE[2] * z)
  rgba[at + 3] = 255
}

function stored(linear: number): number {
  return STORED[linear <= 0 ? 0 : linear >= 1 ? LEVELS : Math.round(linear * LEVELS)]
}
