import type { Lab } from '../../core/colour/space.ts'
import { type PrintedTones, toneCurve } from '../../core/halftone/toneCurve.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { SeenPlate } from '../../raster/films/filmStages.ts'
import type { Tones } from '../../raster/films/tones.ts'
import { plateTones, UNDERBASE_OPACITY } from './plates.ts'

/** One plate made small: how much of each place it covers. */
export type PreviewPlate = SeenPlate &
  Readonly<{
    name: string
    isUnderbase: boolean
    /** How much of the whole it covers. */
    coverageShare: number
  }>

export type PreviewPlates = Readonly<{
  widthPx: number
  heightPx: number
  plates: readonly PreviewPlate[]
}>

const BLACK: Lab = [16, 0, 0]

/**
 * The plates of a plan at the artwork's own few pixels, first printed first.
 *
 * @param artwork made small
 * @param widthMm of the whole print
 * @param parted what `partedInks` made of both, softly; null: nobody keeps it
 */
export async function previewPlates(
  artwork: Artwork,
  {
    plan,
    widthMm,
    parted = null,
  }: Readonly<{ plan: FilmPlan; widthMm: number; parted?: Tones | null }>,
): Promise<PreviewPlates> {
  const { widthPx, heightPx } = artwork
  const size = { widthPx, heightPx, pixelUm: (1000 * widthMm) / widthPx }
  const inks = platesToSee(plan)
  const tones = inks.map(() => new Uint8Array(widthPx * heightPx))
  let y = 0
  for await (const row of plateTones(artwork, plan, size, { soft: true, parted }).rows()) {
    row.forEach((plate, at) => {
      const line = tones[at]?.subarray(y * widthPx, (y + 1) * widthPx)
      if (line !== undefined) eighth(plate, line)
    })
    y += 1
  }
  return {
    widthPx,
    heightPx,
    plates: inks.map((ink, at) => {
      const own = tones[at] ?? new Uint8Array(0)
      return { ...ink, tones: own, coverageShare: meanOf(own) / 255 }
    }),
  }
}

function platesToSee({
  inks,
  underbase,
}: FilmPlan): readonly Omit<PreviewPlate, 'tones' | 'coverageShare'>[] {
  const seen = inks.map(({ name, lab, opacity, printed }) => ({
    name,
    lab: lab ?? BLACK,
    opacity,
    isUnderbase: false,
    ...(printed === undefined ? {} : { printed: tableOf(printed) }),
  }))
  if (underbase === null) return seen
  const { name, lab } = underbase
  return [{ name, lab, opacity: UNDERBASE_OPACITY, isUnderbase: true }, ...seen]
}

/** What each of 256 tones of the film prints as. */
function tableOf(printed: PrintedTones): Uint8Array {
  const { printedShare } = toneCurve(printed)
  return Uint8Array.from({ length: 256 }, (_, tone) =>
    tone === 0 || tone === 255 ? tone : Math.round(255 * printedShare(tone / 255)),
  )
}

function eighth(tones: Uint16Array, into: Uint8Array): void {
  for (let x = 0; x < into.length; x++) into[x] = Math.round((tones[x] ?? 0) / 257)
}

function meanOf(tones: Uint8Array): number {
  let sum = 0
  for (const tone of tones) sum += tone
  return sum / tones.length
}
