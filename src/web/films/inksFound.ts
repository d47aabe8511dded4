import { inkChoices, worthwhileChoice } from '../../core/separation/inkChoice.ts'
import { paletteOf } from '../../core/separation/palette.ts'
import type { Ink } from '../../core/separation/plan.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { InksAsk, InksFound } from './previewAsk.ts'

/** Colours that a suggestion is judged by. */
const COLOURS = 24

/** Inks of the shop for artwork made small, and its own flat colours: one of them is the paper. */
export async function inksFound(
  artwork: Artwork,
  { most, mode, paper, stock }: Pick<InksAsk, 'most' | 'mode' | 'paper' | 'stock'>,
): Promise<InksFound> {
  const parts: Uint8Array[] = []
  for await (const { samples } of artwork.bands()) parts.push(samples.slice())
  const rgb = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  parts.reduce((at, part) => {
    rgb.set(part, at)
    return at + part.length
  }, 0)
  const inks = stock.map((ink): Ink => ({ ...ink, angleDeg: null }))
  const ground = paper === null ? {} : { paper }
  const choices =
    inks.length === 0
      ? []
      : inkChoices(paletteOf(rgb, { count: COLOURS }), { stock: inks, most, mode, ...ground })
  const worth = worthwhileChoice(choices)
  return {
    choices: choices.map((choice) => ({
      names: choice.inks.map(({ name }) => name),
      meanDifference: choice.meanDifference,
      worstDifference: choice.worstDifference,
      // of the last one nobody knows whether one more would help
      isWorth: choice === worth && choice !== choices.at(-1),
    })),
    colours: paletteOf(rgb, { count: most + 1 }),
  }
}
