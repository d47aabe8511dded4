import { WHITE_D50, xyz50FromLab } from '../../core/colour/lab.ts'
import type { Lab } from '../../core/colour/space.ts'
import { LINEAR_FROM_XYZ50, storedLight } from '../../core/colour/srgb.ts'

/** A plate as somebody looks at it. */
export type SeenPlate = Readonly<{
  lab: Lab
  opacity: number
  /** How much of each place it covers, 0 … 255, row by row. */
  tones: Uint8Array
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
  const xyz = new Float32Array(3 * places)
  const ground = paper === null ? WHITE_D50 : xyz50FromLab(paper)
  for (let at = 0; at < xyz.length; at++) xyz[at] = ground[at % 3]
  const stages = [stageOf(xyz, plates, repeats)]
  plates.forEach((plate, at) => {
    layOn(xyz, plate)
    stages.push(stageOf(xyz, plates.slice(at + 1), repeats))
  })
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

/** Lays the mean of an ink over what is there, in place. */
function layOn(xyz: Float32Array, { tones, lab, opacity }: SeenPlate): void {
  const solid = xyz50FromLab(lab)
  const clear = solid.map((value, channel) => (value * (1 - opacity)) / WHITE_D50[channel])
  for (let at = 0, part = 0; at < tones.length; at++, part += 3) {
    const share = tones[at] / 255
    if (share === 0) continue
    for (let channel = 0; channel < 3; channel++) {
      const under = xyz[part + channel]
      const over = solid[channel] * opacity + clear[channel] * under
      xyz[part + channel] = under + share * (over - under)
    }
  }
}

function stageOf(
  xyz: Float32Array,
  films: readonly SeenPlate[],
  repeats: Uint8Array,
): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray((4 * xyz.length) / 3)
  const pixels = new Uint32Array(rgba.buffer)
  const light = lightThrough(films, pixels.length)
  for (let at = 0, part = 0; part < xyz.length; at += 4, part += 3) {
    if (repeats[at / 4] === 1) {
      pixels[at / 4] = pixels[at / 4 - 1]
      continue
    }
    for (let channel = 0; channel < 3; channel++) {
      const [a, b, c] = LINEAR_FROM_XYZ50[channel]
      const linear = light[at / 4] * (a * xyz[part] + b * xyz[part + 1] + c * xyz[part + 2])
      rgba[at + channel] = STORED[linear > 0 ? Math.round(Math.min(1, linear) * LEVELS) : 0]
    }
    rgba[at + 3] = 255
  }
  return rgba
}

function lightThrough(films: readonly SeenPlate[], places: number): Float32Array {
  const light = new Float32Array(places).fill(1)
  for (const { tones } of films) {
    for (let at = 0; at < places; at++) light[at] *= 1 - (FILM_SHARE * tones[at]) / 255
  }
  return light
}
