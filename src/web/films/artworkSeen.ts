import { filmStages } from '../../raster/films/filmStages.ts'
import { PROCESS_INKS } from '../../workflow/makeFilms/readInks.ts'
import type { ArtworkSamples } from './artworkSamples.ts'

/** The artwork as it came, for the eye to hold beside its print: four inks as they print on white. */
export async function artworkSeen(
  { small }: ArtworkSamples,
  space: 'rgb' | 'cmyk',
): Promise<ImageBitmap> {
  const { widthPx, heightPx, bands } = await small({ inks: [], keepsCmyk: true })
  const samples = new Uint8Array((space === 'cmyk' ? 4 : 3) * widthPx * heightPx)
  let at = 0
  for await (const band of bands()) {
    samples.set(band.samples, at)
    at += band.samples.length
  }
  const rgba = space === 'cmyk' ? printed(samples) : opaque(samples)
  return createImageBitmap(new ImageData(rgba, widthPx, heightPx))
}

function printed(cmyk: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const places = cmyk.length / 4
  const plates = PROCESS_INKS.map(({ lab, opacity }, ink) => {
    const tones = Uint8Array.from({ length: places }, (_, place) => cmyk[4 * place + ink] ?? 0)
    return { lab: lab ?? ([16, 0, 0] as const), opacity, tones }
  })
  return filmStages(plates, { places, paper: null }).at(-1) ?? new Uint8ClampedArray(0)
}

function opaque(rgb: Uint8Array): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray((rgb.length / 3) * 4).fill(255)
  for (let at = 0, to = 0; at < rgb.length; at += 3, to += 4) {
    rgba[to] = rgb[at] ?? 255
    rgba[to + 1] = rgb[at + 1] ?? 255
    rgba[to + 2] = rgb[at + 2] ?? 255
  }
  return rgba
}
