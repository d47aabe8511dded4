import { type UnzipFileInfo, unzip } from 'fflate'
import { Failure } from '../core/failure.ts'
import type { Artwork, ArtworkBand } from '../raster/films/artwork.ts'
import type { OpenedArtwork } from './artwork.ts'
import { named } from './named.ts'
import { coverageOf, flattened, KNOWN_OPERATORS, type RasterPixels } from './openRasterLayers.ts'
import { type OpenRasterImage, type OpenRasterNode, readStack } from './openRasterStack.ts'
import { sharp } from './pixelLibrary.ts'
import { unreadable } from './sourceFile.ts'

const MOST_LAYERS = 200
/** All of a picture is in memory while its layers are laid on each other. */
const MOST_PIXELS = 100e6
const MOST_STACK_BYTES = 4 * 2 ** 20
const MOST_LAYER_BYTES = 256 * 2 ** 20
const TYPE = 'image/openraster'

/**
 * An OpenRaster picture: its layers laid on each other. A layer named like an ink of the film is kept
 * as that ink's own.
 *
 * @source openraster
 */
export async function openArtworkOpenRaster(
  path: string,
  bytes: Uint8Array,
): Promise<OpenedArtwork> {
  const files = await filesOf(path, bytes)
  const image = imageOf(path, files)
  const layers = layersOf(image.nodes)
  const { widthPx, heightPx } = image
  await expectTakable(path, { image, layers, files })
  const of = { path, files, widthPx, heightPx }
  return {
    proportion: widthPx / heightPx,
    widthMm: image.widthMm,
    kind: 'picture',
    ownInks: [],
    statesCmyk: false,
    warnings: warningsOf(path, image.nodes),
    samples: async (film) => {
      const inks = film.inks.map((name) => name.toLowerCase())
      const plateOf = ({ name }: OpenRasterNode): number => inks.indexOf(name.trim().toLowerCase())
      const kept = layersOf(image.nodes, isSeen).filter((layer) => plateOf(layer) >= 0)
      const rest = await flattened(image.nodes, { ...of, without: new Set(kept) })
      const size = {
        widthPx: Math.min(widthPx, film.widthPx),
        heightPx: Math.min(heightPx, film.heightPx),
      }
      const passing = []
      for (const layer of kept) {
        const grey = await artworkOf(await coverageOf(layer, of), { ...of, size })
        passing.push({ plate: plateOf(layer), grey })
      }
      return { ...(await artworkOf(rest, { ...of, size })), passing }
    },
    close: () => Promise.resolve(),
  }
}

export type ZipFiles = Readonly<Record<string, Uint8Array>>

/** What an OpenRaster file needs and no more: nothing larger than it may be is unpacked. */
function filesOf(path: string, bytes: Uint8Array): Promise<ZipFiles> {
  const isWanted = ({ name, originalSize }: UnzipFileInfo): boolean => {
    if (name === 'mimetype' || name === 'stack.xml') return originalSize <= MOST_STACK_BYTES
    return name.startsWith('data/') && originalSize <= MOST_LAYER_BYTES
  }
  return new Promise((resolve, reject) => {
    unzip(bytes, { filter: isWanted }, (cause, files) => {
      if (cause === null) resolve(files)
      else reject(unreadable(path, 'is a zip that cannot be unpacked; save it again', cause))
    })
  })
}

function imageOf(path: string, files: ZipFiles): OpenRasterImage {
  const [type, stack] = [files['mimetype'], files['stack.xml']]
  const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes)
  if (text(type).trim() !== TYPE) {
    throw unreadable(
      path,
      'is a zip or office file and no OpenRaster picture; give a PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster',
    )
  }
  if (stack === undefined) {
    throw unreadable(path, 'is an OpenRaster picture without a list of layers; save it again')
  }
  const image = readStack(text(stack))
  if (typeof image !== 'string') return image
  throw unreadable(path, `is an OpenRaster picture that ${image}; save it again`)
}

type Layer = Extract<OpenRasterNode, { kind: 'layer' }>

function layersOf(
  nodes: readonly OpenRasterNode[],
  isWanted: (node: OpenRasterNode) => boolean = () => true,
): readonly Layer[] {
  return nodes
    .filter(isWanted)
    .flatMap((node) => (node.kind === 'layer' ? [node] : layersOf(node.nodes, isWanted)))
}

const isSeen = (node: OpenRasterNode): boolean => node.isSeen

async function expectTakable(
  path: string,
  {
    image: { widthPx, heightPx },
    layers,
    files,
  }: Readonly<{ image: OpenRasterImage; layers: readonly Layer[]; files: ZipFiles }>,
): Promise<void> {
  const tooLarge = (message: string): Failure =>
    new Failure('too large', `${named(path)} ${message}`)
  if (widthPx * heightPx > MOST_PIXELS) {
    throw tooLarge(
      `has ${widthPx} x ${heightPx} pixels, and 100 million in all are the most; save it smaller or as PNG.`,
    )
  }
  if (layers.length > MOST_LAYERS) {
    throw tooLarge(
      `has ${layers.length} layers, and ${MOST_LAYERS} are the most; merge some of them.`,
    )
  }
  for (const { name, source } of layers) {
    const called = named(name || source)
    const file = files[source]
    if (file === undefined) {
      throw unreadable(
        path,
        `does not hold its layer ${called}, or holds too much of it; save it again`,
      )
    }
    const head = await sharp(file, { limitInputPixels: false })
      .metadata()
      .catch((cause: unknown) => {
        throw unreadable(path, `has a layer ${called} that is no picture; save it again`, cause)
      })
    if (head.format !== 'png') {
      throw unreadable(path, `has a layer ${called} that is no PNG; save it again`)
    }
    if (head.width * head.height > MOST_PIXELS) {
      throw tooLarge(`has a layer ${called} of more than 100 million pixels; save it smaller.`)
    }
  }
}

function warningsOf(path: string, nodes: readonly OpenRasterNode[]): readonly string[] {
  const operators = new Set<string>()
  const look = (node: OpenRasterNode): void => {
    if (node.isSeen) operators.add(node.operator)
    if (node.kind === 'stack') node.nodes.forEach(look)
  }
  nodes.forEach(look)
  const unknown = [...operators].filter((operator) => !KNOWN_OPERATORS.has(operator))
  return unknown.length === 0
    ? []
    : [
        `${named(path)} lays layers by ${named(unknown.slice(0, 3).join(', '))}, which is not known; they are laid plainly.`,
      ]
}

/** Pixels in memory as artwork, no finer than the film. */
async function artworkOf(
  { samples, channels }: RasterPixels,
  {
    widthPx,
    heightPx,
    size,
  }: Readonly<{
    widthPx: number
    heightPx: number
    size: Readonly<{ widthPx: number; heightPx: number }>
  }>,
): Promise<Artwork> {
  const isSame = size.widthPx === widthPx && size.heightPx === heightPx
  const all = isSame
    ? samples
    : await sharp(samples, { raw: { width: widthPx, height: heightPx, channels } })
        .resize(size.widthPx, size.heightPx, { fit: 'fill', kernel: 'linear' })
        .toColourspace(channels === 1 ? 'b-w' : 'srgb')
        .raw()
        .toBuffer()
  async function* bands(): AsyncGenerator<ArtworkBand> {
    yield await Promise.resolve({ rows: size.heightPx, samples: new Uint8Array(all) })
  }
  return { space: channels === 1 ? 'grey' : 'rgb', ...size, bands }
}
