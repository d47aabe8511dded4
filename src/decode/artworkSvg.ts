import { type ResvgRenderOptions, renderAsync } from '@resvg/resvg-js'
import { Failure } from '../core/failure.ts'
import type { ArtworkBand } from '../raster/films/artwork.ts'
import type { OpenedArtwork } from './artwork.ts'
import { drawnRows, onWhite, rgbOf } from './drawnBands.ts'
import { FONTS, fontFiles } from './fonts.ts'
import { named } from './named.ts'
import { sharp } from './pixelLibrary.ts'
import { unreadable } from './sourceFile.ts'

const MOST_BYTES = 64 * 2 ** 20
/** An embedded picture is whole in memory while it is drawn. */
const MOST_EMBEDDED_PX = 100e6

/** A drawing whose edges are made at the film's own pixels, each wholly one colour. */
export async function openArtworkSvg(path: string, bytes: Uint8Array): Promise<OpenedArtwork> {
  if (bytes.length > MOST_BYTES) {
    throw new Failure('too large', `${named(path)} has more than 64 MB; save a simpler drawing.`)
  }
  const svg = textOf(path, bytes)
  refuseOthers(path, svg)
  await refuseLargePictures(path, svg)
  const root = rootOf(path, svg)
  const options: ResvgRenderOptions = {
    shapeRendering: 1, // no greys at edges: each pixel is wholly one colour
    textRendering: 0,
    font: {
      loadSystemFonts: false,
      fontFiles: [...(await fontFiles(['text', 'bold text']))],
      defaultFontFamily: FONTS.text.family,
    },
  }
  const asked = /<text[\s>]/.test(svg)
  const warning = `${named(path)} holds text, which is set in our own letters; turn text to outlines first.`
  await renderAsync(banded(root, { widthPx: 8, heightPx: 8, top: 0, rows: 8 }), options).catch(
    (cause: unknown) => {
      throw unreadable(path, 'is no drawing that can be read; export it again as plain SVG', cause)
    },
  )
  return {
    proportion: root.width / root.height,
    widthMm: root.widthMm,
    kind: 'drawing',
    ownInks: [],
    statesCmyk: false,
    warnings: asked ? [warning] : [],
    samples: async ({ widthPx, heightPx }) => {
      const most = drawnRows(path, widthPx)
      async function* bands(): AsyncGenerator<ArtworkBand> {
        for (let top = 0; top < heightPx; top += most) {
          const rows = Math.min(most, heightPx - top)
          const image = await renderAsync(banded(root, { widthPx, heightPx, top, rows }), options)
          yield { rows, samples: rgbOf(onWhite(image.pixels)) }
        }
      }
      return { space: 'rgb', widthPx, heightPx, bands }
    },
    close: () => Promise.resolve(),
  }
}

function textOf(path: string, bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch (cause) {
    throw unreadable(path, 'is no text in UTF-8; export it again as plain SVG', cause)
  }
}

/**
 * Files and addresses elsewhere, and what could hide them. None of the searches in a drawing goes on
 * beyond the next tag, so that none is begun again and again.
 */
function refuseOthers(path: string, svg: string): void {
  if (/<!ENTITY/i.test(svg)) {
    throw unreadable(path, 'defines entities of its own; export it again as plain SVG')
  }
  const other = /href\s*=\s*(?:"(?!\s*(?:#|data:))[^"]|'(?!\s*(?:#|data:))[^'])/i
  const links = svg.replace(/<(?:\w{1,40}:)?a\s[^<>]*>/gi, '')
  if (other.test(links) || /@import|url\((?:\s*["'])?\s*(?!#|data:|["'])[^\s)]/i.test(links)) {
    throw unreadable(path, 'refers to other files; embed them and export it again')
  }
}

async function refuseLargePictures(path: string, svg: string): Promise<void> {
  for (const [, code = ''] of svg.matchAll(
    /data:image\/[\w.+-]{1,40}[^,"'<]{0,200};base64,([^"')<]*)/gi,
  )) {
    const head = await sharp(Buffer.from(code.replace(/\s|&#\w+;/g, ''), 'base64'), {
      limitInputPixels: false,
    })
      .metadata()
      .catch(() => null)
    const pixels = head === null ? 0 : head.width * head.height
    if (pixels > MOST_EMBEDDED_PX) {
      const message = `${named(path)} embeds a picture of ${Math.round(pixels / 1e6)} million pixels, and 100 million are the most; embed it smaller.`
      throw new Failure('too large', message)
    }
  }
}

type Root = Readonly<{
  before: string
  attributes: string
  after: string
  /** The sides of what it shows, in its own units. */
  width: number
  height: number
  view: string
  widthMm: number | null
}>

/**
 * Millimetres of a length's unit: a pixel of CSS is a 96th of an inch.
 *
 * @source css-units
 */
const UNIT_MM: Readonly<Record<string, number>> = {
  '': 25.4 / 96,
  px: 25.4 / 96,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  in: 25.4,
  cm: 10,
  mm: 1,
}

function rootOf(path: string, svg: string): Root {
  const found = /<svg(?=[\s>/])((?:[^<>"']|"[^"]*"|'[^']*')*)>/.exec(svg)
  if (found === null) throw unreadable(path, 'has no root element; export it again as plain SVG')
  const attributes = found[1] ?? ''
  const box = (attributeOf(attributes, 'viewBox') ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number)
  const [, , boxWidth = 0, boxHeight = 0] = box
  const hasBox = box.length === 4 && box.every(Number.isFinite) && boxWidth > 0 && boxHeight > 0
  const width = lengthMm(attributeOf(attributes, 'width'))
  const height = lengthMm(attributeOf(attributes, 'height'))
  const boxMm = (side: number): number => side * (UNIT_MM['px'] ?? 1)
  const sides =
    width !== null && height !== null
      ? { width, height }
      : !hasBox
        ? null
        : width !== null
          ? { width, height: (width * boxHeight) / boxWidth }
          : height !== null
            ? { width: (height * boxWidth) / boxHeight, height }
            : { width: boxMm(boxWidth), height: boxMm(boxHeight) }
  if (sides === null || !(sides.width > 0 && sides.height > 0)) {
    throw unreadable(path, 'states neither its size nor a viewBox; export it again with a size')
  }
  const view = hasBox ? box.join(' ') : `0 0 ${sides.width / boxMm(1)} ${sides.height / boxMm(1)}`
  return {
    before: svg.slice(0, found.index),
    attributes,
    after: svg.slice(found.index + found[0].length),
    ...sides,
    view,
    widthMm: sides.width,
  }
}

function attributeOf(attributes: string, name: string): string | undefined {
  const found = new RegExp(`(?:^|\\s)${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(attributes)
  return found?.[1] ?? found?.[2]
}

function lengthMm(text: string | undefined): number | null {
  const [, value, unit = ''] =
    /^\s*([+]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)(px|pt|pc|in|cm|mm)?\s*$/i.exec(text ?? '') ?? []
  return value === undefined ? null : Number(value) * (UNIT_MM[unit.toLowerCase()] ?? 1)
}

/** Some rows of the drawing: the whole of it as a part of a picture of those rows alone. */
function banded(
  { before, attributes, after, view }: Root,
  of: Readonly<{ widthPx: number; heightPx: number; top: number; rows: number }>,
): string {
  const { widthPx, heightPx, top, rows } = of
  const own = ['width', 'height', 'viewBox', 'preserveAspectRatio', 'x', 'y'].reduce(
    (text, name) => text.replace(new RegExp(`(^|\\s)${name}\\s*=\\s*(?:"[^"]*"|'[^']*')`), '$1'),
    attributes.replace(/\/\s*$/, ''),
  )
  const closed = /\/\s*$/.test(attributes)
  const outer = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${rows}" viewBox="0 ${top} ${widthPx} ${rows}">`
  const inner = `<svg x="0" y="0" width="${widthPx}" height="${heightPx}" viewBox="${view}" preserveAspectRatio="none"${own}>`
  return `${before}${outer}${inner}${closed ? '</svg>' : after}</svg>`
}
