import { WHITE_D50, xyz50FromLab } from '../../core/colour/lab.ts'
import type { Lab } from '../../core/colour/space.ts'
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
  const light = new Float32Array(places).fill(1)
  for (const { tones } of plates) lightThrough(light, { tones, repeats })
  // what is printed so far
  const [x, y, z] = ground.map((value) => new Float32Array(places).fill(value))
  const stages: Uint8ClampedArray<ArrayBuffer>[] = []
  for (let stage = 0; stage <= plates.length; stage++) {
    const rgba = new Uint8ClampedArray(4 * places)
    show(rgba, { light, x, y, z, repeats })
    stages.push(rgba)
    if (stage === plates.length) break
    const plate = plates[stage]
    rollBack(light, { tones: plate.tones, repeats })
    const { own, clear } = inkOf(plate)
    const printed = Float64Array.from(
      { length: 256 },
      (_, tone) => (plate.printed?.[tone] ?? tone) / 255,
    )
    for (const [channel, into] of [x, y, z].entries()) {
      lay(into, { ...plate, printed, repeats, own: own[channel], less: clear[channel] - 1 })
    }
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

type Films = Readonly<{ tones: Uint8Array; repeats: Uint8Array }>

/** What a film lets through of each tone, 0 … 255. */
const THROUGH = Float64Array.from({ length: 256 }, (_, tone) => 1 - (FILM_SHARE * tone) / 255)

// One loop for each thing that is done to all places: a loop that does all of it takes thrice as long.

function lightThrough(light: Float32Array, { tones, repeats }: Films): void {
  for (let at = 0; at < light.length; at++) if (repeats[at] === 0) light[at] *= THROUGH[tones[at]]
}

function rollBack(light: Float32Array, { tones, repeats }: Films): void {
  for (let at = 0; at < light.length; at++) if (repeats[at] === 0) light[at] /= THROUGH[tones[at]]
}

/** The mean of an ink over what is there, in one of X, Y and Z. */
function lay(
  into: Float32Array,
  {
    tones,
    printed,
    repeats,
    own,
    less,
  }: Films & Readonly<{ printed: Float64Array; own: number; less: number }>,
): void {
  for (let at = 0; at < into.length; at++) {
    if (repeats[at] === 0) into[at] += printed[tones[at]] * (own + less * into[at])
  }
}

const [[RX, RY, RZ], [GX, GY, GZ], [BX, BY, BZ]] = LINEAR_FROM_XYZ50
const IS_LITTLE_ENDIAN = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1

function show(
  rgba: Uint8ClampedArray<ArrayBuffer>,
  {
    light,
    x,
    y,
    z,
    repeats,
  }: Readonly<{
    light: Float32Array
    x: Float32Array
    y: Float32Array
    z: Float32Array
    repeats: Uint8Array
  }>,
): void {
  const pixels = new Uint32Array(rgba.buffer)
  for (let at = 0; at < pixels.length; at++) {
    if (repeats[at] === 1) {
      pixels[at] = pixels[at - 1]
      continue
    }
    const level = LEVELS * light[at]
    const [ownX, ownY, ownZ] = [level * x[at], level * y[at], level * z[at]]
    const red = stored(RX * ownX + RY * ownY + RZ * ownZ)
    const green = stored(GX * ownX + GY * ownY + GZ * ownZ)
    const blue = stored(BX * ownX + BY * ownY + BZ * ownZ)
    pixels[at] = IS_LITTLE_ENDIAN
      ? 0xff00_0000 | (blue << 16) | (green << 8) | red
      : (red << 24) | (green << 16) | (blue << 8) | 0xff
  }
}

function stored(level: number): number {
  return STORED[level <= 0 ? 0 : level >= LEVELS ? LEVELS : (level + 0.5) | 0]
}
