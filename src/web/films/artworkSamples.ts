import type { ArtworkPicture } from '../../api/artwork.ts'
import { artworkTilePath } from '../../api/paths.ts'
import type { Artwork } from '../../raster/films/artwork.ts'
import type { ArtworkPart } from '../../workflow/makeFilms/loupeDots.ts'

/** A rectangle of the artwork's own pixels. */
export type Cut = Readonly<{ left: number; top: number; right: number; bottom: number }>

export type ArtworkSamples = Readonly<{
  /** The very same as long as the same passes through. A sketch has half as many pixels a side. */
  small: (through: Through, isSketch?: boolean) => Promise<Artwork>
  part: (cut: Cut, through: Through) => Promise<ArtworkPart>
}>

/** What passes through to the plates as it is. */
export type Through = Readonly<{
  /** Names of the plan's inks in small letters: those that the artwork holds itself. */
  inks: readonly string[]
  keepsCmyk: boolean
}>

/** Artwork's samples from the shop's computer, each tile fetched once. @throws TypeError without a connection */
export function artworkSamples(artwork: string, picture: ArtworkPicture): ArtworkSamples {
  const { widthPx, heightPx, tileSide, small, space, passing } = picture
  const own = space === 'cmyk' ? 4 : 3
  const each = own + passing.length
  const kind: Kind = { space, own, each, passing }
  const known = new Map<string, Promise<Uint8Array | null>>()
  const tile = (place: Readonly<{ level: 0 | 1; x: number; y: number }>) => {
    const path = artworkTilePath(artwork, place)
    const there = known.get(path) ?? fetched(path)
    known.set(path, there)
    there.catch(() => known.delete(path))
    return there
  }
  const pixels = async (): Promise<Uint8Array> => {
    const planes = await tile({ level: 1, x: 0, y: 0 })
    const all = new Uint8Array(each * small.widthPx * small.heightPx).fill(255)
    if (planes !== null) {
      lay(planes, { ...small, pixels: all, each, across: small.widthPx, left: 0, top: 0 })
    }
    return coarse(all)
  }
  let laid: Promise<Uint8Array> | null = null
  const smalls = new Map<boolean, Readonly<{ key: string; artwork: Artwork }>>()
  return {
    small: async (through, isSketch = false) => {
      const inks = through.inks.filter((name) => passing.includes(name))
      const key = JSON.stringify([
        space === 'cmyk' && through.keepsCmyk,
        inks.length > 0 && through,
      ])
      const last = smalls.get(isSketch)
      if (last?.key === key) return last.artwork
      laid ??= pixels()
      laid.catch(() => {
        laid = null
      })
      const whole = { ...small, pixels: await laid }
      const { pixels: own, ...size } = isSketch ? halved(whole, each) : whole
      const artwork = artworkOf(own, { ...kind, ...size, ...through })
      smalls.set(isSketch, { key, artwork })
      return artwork
    },
    part: async ({ left, top, right, bottom }, through) => {
      const size = { widthPx: right - left, heightPx: bottom - top }
      const pixels = new Uint8Array(each * size.widthPx * size.heightPx).fill(255)
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
            each,
            across: size.widthPx,
            left: from.left - left,
            top: from.top - top,
          })
        }),
      )
      return {
        part: artworkOf(pixels, { ...kind, ...size, ...through }),
        leftPx: left,
        topPx: top,
        widthPx,
        heightPx,
      }
    },
  }
}

/** Six bits of each value: so many colours fewer are parted into inks, and nobody sees it on a page. */
function coarse(pixels: Uint8Array): Uint8Array {
  return pixels.map((value) => (value & 0xfc) | (value >> 6))
}

type Pixels = Readonly<{ widthPx: number; heightPx: number; pixels: Uint8Array }>

/** Means of two by two pixels; what is odd at the rim is left out. */
function halved({ widthPx, heightPx, pixels }: Pixels, each: number): Pixels {
  const [wide, high] = [Math.max(1, widthPx >> 1), Math.max(1, heightPx >> 1)]
  const [right, below] = [widthPx > 1 ? each : 0, heightPx > 1 ? each * widthPx : 0]
  const into = new Uint8Array(each * wide * high)
  for (let y = 0, to = 0; y < high; y++) {
    for (let x = 0; x < wide; x++) {
      let at = each * (2 * y * widthPx + 2 * x)
      for (let part = 0; part < each; part++, at++, to++) {
        const upper = (pixels[at] ?? 0) + (pixels[at + right] ?? 0)
        into[to] = (upper + (pixels[at + below] ?? 0) + (pixels[at + below + right] ?? 0) + 2) >> 2
      }
    }
  }
  return { widthPx: wide, heightPx: high, pixels: coarse(into) }
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
  /** Planes, and bytes a pixel. */
  each: number
  /** Width of what it is laid into. */
  across: number
  left: number
  top: number
}>

/** Lays planes into pixels, as far as they lie within. */
function lay(
  planes: Uint8Array,
  { widthPx, heightPx, pixels, each, across, left, top }: Laid,
): void {
  const plane = widthPx * heightPx
  const down = pixels.length / each / across
  for (let y = Math.max(0, -top); y < Math.min(heightPx, down - top); y++) {
    for (let x = Math.max(0, -left); x < Math.min(widthPx, across - left); x++) {
      const to = each * ((y + top) * across + x + left)
      const from = y * widthPx + x
      for (let part = 0; part < each; part++) pixels[to + part] = planes[part * plane + from] ?? 255
    }
  }
}

/** What a pixel is made of. */
type Kind = Readonly<{
  space: ArtworkPicture['space']
  /** Bytes of its colour, and of all. */
  own: number
  each: number
  passing: readonly string[]
}>

function artworkOf(
  pixels: Uint8Array,
  {
    widthPx,
    heightPx,
    space,
    own,
    each,
    passing,
    inks,
    keepsCmyk,
  }: Kind & Through & Readonly<{ widthPx: number; heightPx: number }>,
): Artwork {
  const size = { widthPx, heightPx }
  const colour = partsOf(pixels, { each, from: 0, wide: own })
  const through = passing.flatMap((name, at) => {
    const plate = inks.indexOf(name)
    if (plate < 0) return []
    const grey = partsOf(pixels, { each, from: own + at, wide: 1 })
    return [{ plate, grey: plain(grey, 'grey', size) }]
  })
  // shares of ink came as what they leave of paper
  const artwork =
    space === 'cmyk' && keepsCmyk
      ? plain(
          colour.map((left) => 255 - left),
          space,
          size,
        )
      : plain(space === 'cmyk' ? rgbOf(colour) : colour, 'rgb', size)
  return through.length === 0 ? artwork : { ...artwork, passing: through }
}

/** What four inks leave of paper, as plain colours: until others are fetched. */
function rgbOf(left: Uint8Array): Uint8Array {
  const rgb = new Uint8Array((left.length / 4) * 3)
  for (let at = 0, to = 0; at < left.length; at += 4, to += 3) {
    const black = (left[at + 3] ?? 255) / 255
    for (let part = 0; part < 3; part++)
      rgb[to + part] = Math.round((left[at + part] ?? 255) * black)
  }
  return rgb
}

function plain(
  samples: Uint8Array,
  space: Artwork['space'],
  { widthPx, heightPx }: Readonly<{ widthPx: number; heightPx: number }>,
): Artwork {
  async function* bands() {
    yield { rows: heightPx, samples }
  }
  return { space, widthPx, heightPx, bands }
}

/** Some of the bytes of each pixel. */
function partsOf(
  pixels: Uint8Array,
  { each, from, wide }: Readonly<{ each: number; from: number; wide: number }>,
): Uint8Array {
  if (wide === each) return pixels
  const parts = new Uint8Array((pixels.length / each) * wide)
  for (let at = from, to = 0; to < parts.length; at += each) {
    for (let part = 0; part < wide; part++, to++) parts[to] = pixels[at + part] ?? 255
  }
  return parts
}

async function fetched(path: string): Promise<Uint8Array | null> {
  const response = await fetch(path)
  if (response.status === 204) return null
  if (!response.ok || response.body === null) throw new TypeError(`${path}: ${response.status}`)
  const stream = response.body.pipeThrough(new DecompressionStream('deflate'))
  return new Uint8Array(await new Response(stream).arrayBuffer())
}
