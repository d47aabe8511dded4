import type { Blend } from 'sharp'
import { named } from './named.ts'
import type { OpenRasterNode } from './openRasterStack.ts'
import { sharp } from './pixelLibrary.ts'
import { unreadable } from './sourceFile.ts'

export type RasterPixels = Readonly<{ samples: Uint8Array; channels: 1 | 3 }>

/** The picture that layers are laid on, and where theirs are found. */
export type Canvas = Readonly<{
  path: string
  files: Readonly<Record<string, Uint8Array>>
  widthPx: number
  heightPx: number
}>

const OPERATORS: Readonly<Record<string, Blend>> = {
  'svg:src-over': 'over',
  'svg:multiply': 'multiply',
  'svg:screen': 'screen',
  'svg:overlay': 'overlay',
  'svg:darken': 'darken',
  'svg:lighten': 'lighten',
  'svg:color-dodge': 'colour-dodge',
  'svg:color-burn': 'colour-burn',
  'svg:hard-light': 'hard-light',
  'svg:soft-light': 'soft-light',
  'svg:difference': 'difference',
  'svg:plus': 'add',
  'svg:dst-in': 'dest-in',
  'svg:dst-out': 'dest-out',
  'svg:src-atop': 'atop',
  'svg:dst-atop': 'dest-atop',
}

export const KNOWN_OPERATORS: ReadonlySet<string> = new Set(Object.keys(OPERATORS))

/**
 * All that is seen, laid on each other from the lowest up, on white.
 *
 * @param without layers that are left out
 * @source openraster
 */
export async function flattened(
  nodes: readonly OpenRasterNode[],
  canvas: Canvas & Readonly<{ without: ReadonlySet<OpenRasterNode> }>,
): Promise<RasterPixels> {
  const rgba = await laid(nodes, canvas)
  const samples = await sharp(rgba, raw(canvas, 4))
    .flatten({ background: '#ffffff' })
    .raw()
    .toBuffer()
  return { samples, channels: 3 }
}

/**
 * A layer as an ink's own: what is painted on a clear layer is ink, whatever its colour; a layer
 * without clear parts is 1 − grey. Black where it is solid.
 */
export async function coverageOf(
  layer: Extract<OpenRasterNode, { kind: 'layer' }>,
  canvas: Canvas,
): Promise<RasterPixels> {
  const rgba = await placed(layer, canvas)
  let isClear = false
  for (let at = 3; at < rgba.length && !isClear; at += 4) isClear = (rgba[at] ?? 0) < 128
  const samples = new Uint8Array(rgba.length / 4)
  if (!isClear) {
    const grey = await sharp(rgba, raw(canvas, 4))
      .flatten({ background: '#ffffff' })
      .toColourspace('b-w')
      .raw()
      .toBuffer()
    return { samples: grey, channels: 1 }
  }
  for (let at = 0; at < samples.length; at++) samples[at] = 255 - (rgba[4 * at + 3] ?? 0)
  return { samples, channels: 1 }
}

async function laid(
  nodes: readonly OpenRasterNode[],
  canvas: Canvas & Readonly<{ without: ReadonlySet<OpenRasterNode> }>,
): Promise<Uint8Array> {
  let below: Uint8Array = new Uint8Array(4 * canvas.widthPx * canvas.heightPx)
  for (const node of nodes.toReversed()) {
    if (!node.isSeen || node.opacity === 0 || canvas.without.has(node)) continue
    const input =
      node.kind === 'layer'
        ? await placed(node, canvas)
        : faded(await laid(node.nodes, canvas), node.opacity)
    const blend = OPERATORS[node.operator] ?? 'over'
    below = await sharp(below, raw(canvas, 4))
      .composite([
        {
          input: Buffer.from(input.buffer, input.byteOffset, input.byteLength),
          ...raw(canvas, 4),
          blend,
        },
      ])
      .raw()
      .toBuffer()
  }
  return below
}

/** A layer at its place on an empty canvas, as sRGB and alpha. */
async function placed(
  { name, source, xPx, yPx, opacity }: Extract<OpenRasterNode, { kind: 'layer' }>,
  canvas: Canvas,
): Promise<Uint8Array> {
  const { path, files, widthPx, heightPx } = canvas
  const all = new Uint8Array(4 * widthPx * heightPx)
  const { data, info } = await sharp(files[source], { limitInputPixels: false, failOn: 'warning' })
    .ensureAlpha()
    .toColourspace('srgb')
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true })
    .catch((cause: unknown) => {
      throw unreadable(path, `has a damaged layer ${named(name || source)}; save it again`, cause)
    })
  const [left, right] = [Math.max(0, xPx), Math.min(widthPx, xPx + info.width)]
  for (let y = Math.max(0, yPx); y < Math.min(heightPx, yPx + info.height) && left < right; y++) {
    const from = 4 * ((y - yPx) * info.width + left - xPx)
    all.set(data.subarray(from, from + 4 * (right - left)), 4 * (y * widthPx + left))
  }
  return faded(all, opacity)
}

function faded(rgba: Uint8Array, opacity: number): Uint8Array {
  if (opacity === 1) return rgba
  for (let at = 3; at < rgba.length; at += 4) rgba[at] = Math.round((rgba[at] ?? 0) * opacity)
  return rgba
}

function raw(
  { widthPx, heightPx }: Canvas,
  channels: 4,
): Readonly<{ raw: { width: number; height: number; channels: 4 } }> {
  return { raw: { width: widthPx, height: heightPx, channels } }
}
