import type { ArtworkPicture } from '../../api/artwork.ts'
import { artworkTilePath } from '../../api/paths.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { ArtworkPart } from '../../workflow/makeFilms/loupeDots.ts'

/** A rectangle of the artwork's own pixels. */
export type Cut = Readonly<{ left: number; top: number; right: number; bottom: number }>

export type ArtworkSamples = Readonly<{
  small: () => Promise<Artwork>
  part: (cut: Cut) => Promise<ArtworkPart>
}>

/** Artwork's samples from the shop's computer, each tile fetched once. @throws TypeError without a connection */
export function artworkSamples(artwork: string, picture: ArtworkPicture): ArtworkSamples {
  const { widthPx, heightPx, tileSide, small } = picture
  const known = new Map<string, Promise<Uint8Array | null>>()
  const tile = (place: Readonly<{ level: 0 | 1; x: number; y: number }>) => {
    const path = artworkTilePath(artwork, place)
    const there = known.get(path) ?? fetched(path)
    known.set(path, there)
    there.catch(() => known.delete(path))
    return there
  }
  return {
    small: async () => {
      const planes = await tile({ level: 1, x: 0, y: 0 })
      const pixels = new Uint8Array(3 * small.widthPx * small.heightPx).fill(255)
      if (planes !== null) lay(planes, { ...small, pixels, across: small.widthPx, left: 0, top: 0 })
      return artworkOf(coarse(pixels), small)
    },
    part: async ({ left, top, right, bottom }) => {
      const size = { widthPx: right - left, heightPx: bottom - top }
      const pixels = new Uint8Array(3 * size.widthPx * size.heightPx).fill(255)
      const places = placesIn({ left, top, right, bottom }, tileSide)
      await Promise.all(
        places.map(async ({ x, y }) => {
          const planes = await tile({ level: 0, x, y })
          if (planes === null) return
          const from = { left: x * tileSide, top: y * tileSide }
          lay(planes, {
            widthPx: Math.min(tileSide, widthPx - from.left),
            heightPx: Math.min(tileSide, heightPx - from.top),
            pixels,
            across: size.widthPx,
            left: from.left - left,
            top: from.top - top,
          })
        }),
      )
      return { part: artworkOf(pixels, size), leftPx: left, topPx: top, widthPx, heightPx }
    },
  }
}

/** Six bits of each value: so many colours fewer are parted into inks, and nobody sees it on a page. */
function coarse(pixels: Uint8Array): Uint8Array {
  return pixels.map((value) => (value & 0xfc) | (value >> 6))
}

/** Tiles that a rectangle touches. */
export function placesIn(
  { left, top, right, bottom }: Cut,
  side: number,
): readonly Readonly<{ x: number; y: number }>[] {
  const places = []
  for (let y = Math.floor(top / side); y * side < bottom; y++) {
    for (let x = Math.floor(left / side); x * side < right; x++) places.push({ x, y })
  }
  return places
}

type Laid = Readonly<{
  widthPx: number
  heightPx: number
  pixels: Uint8Array
  /** Width of what it is laid into. */
  across: number
  left: number
  top: number
}>

/** Lays planes of red, green and blue into pixels of three bytes, as far as they lie within. */
function lay(planes: Uint8Array, { widthPx, heightPx, pixels, across, left, top }: Laid): void {
  const plane = widthPx * heightPx
  const down = pixels.length / 3 / across
  for (let y = Math.max(0, -top); y < Math.min(heightPx, down - top); y++) {
    for (let x = Math.max(0, -left); x < Math.min(widthPx, across - left); x++) {
      const to = 3 * ((y + top) * across + x + left)
      const from = y * widthPx + x
      pixels[to] = planes[from] ?? 255
      pixels[to + 1] = planes[plane + from] ?? 255
      pixels[to + 2] = planes[2 * plane + from] ?? 255
    }
  }
}

function artworkOf(
  samples: Uint8Array,
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
): Artwork {
  async function* bands() {
    yield { rows: heightPx, samples }
  }
  return { space: 'rgb', widthPx, heightPx, bands }
}

async function fetched(path: string): Promise<Uint8Array | null> {
  const response = await fetch(path)
  if (response.status === 204) return null
  if (!response.ok || response.body === null) throw new TypeError(`${path}: ${response.status}`)
  const stream = response.body.pipeThrough(new DecompressionStream('deflate'))
  return new Uint8Array(await new Response(stream).arrayBuffer())
}
