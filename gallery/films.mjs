// The films of the Quillfield Print Room (an invented place, demo), drawn and written:
//
//   node gallery/films.mjs FOLDER [--dpi N] [--only NAME] [--previews]
//
// Each film as a density map (32-bit float TIFF, true size), the cut film as a 1-bit TIFF besides;
// with --previews only pictures for people, as on a light table. Files there are replaced.
import { mkdir } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'
import sharp from 'sharp'
import { deflater } from '../dist/decode/deflater.js'
import { writeWhole } from '../dist/decode/files.js'
import { DEMO_FILMS } from '../dist/demo/films.js'
import { writeFloatTiff } from '../dist/formats/floatTiff.js'

/** @typedef {import('../dist/raster/film.d.ts').Film} Film */

const PREVIEW_PX = 1600

/** The density map of a film, a band of it in memory at a time. @param {Film} film */
export async function writeDensityMap(film, path) {
  const densities = densityTable(film)
  const { widthPx, heightPx, pixelUm } = film
  async function* bands() {
    for await (const { rows, samples } of film.bands()) {
      const map = new Float32Array(samples.length)
      for (let at = 0; at < map.length; at += 1) map[at] = densities[samples[at]]
      yield { rows, samples: map }
    }
  }
  await writeWhole(path, { force: true }, (sink) =>
    writeFloatTiff({ widthPx, heightPx, pixelUm, bands: bands() }, { sink, deflater: deflater() }),
  )
}

/** Black where less than half of the light comes through: Group 4, true size. @param {Film} film */
export async function writeOneBit(film, path) {
  const { widthPx, heightPx, pixelUm, transmissionOf } = film
  const grey = Buffer.alloc(widthPx * heightPx)
  for await (const { top, samples } of film.bands()) {
    const start = top * widthPx
    samples.forEach((sample, at) => {
      grey[start + at] = transmissionOf[sample] < 0.5 ? 0 : 255
    })
  }
  const perMm = 1000 / pixelUm
  await sharp(grey, {
    raw: { width: widthPx, height: heightPx, channels: 1 },
    limitInputPixels: false,
  })
    .toColourspace('b-w')
    .tiff({ compression: 'ccittfax4', bitdepth: 1, xres: perMm, yres: perMm })
    .toFile(path)
}

/** The film on a light table, light averaged over whole pixels. @param {Film} film */
export async function writePreview(film, path) {
  const { widthPx, heightPx, transmissionOf } = film
  const side = Math.max(1, Math.round(widthPx / PREVIEW_PX))
  const width = Math.floor(widthPx / side)
  const height = Math.floor(heightPx / side)
  const light = new Float64Array(width * height)
  for await (const { top, rows, samples } of film.bands()) {
    for (let row = 0; row < rows; row += 1) {
      const down = Math.floor((top + row) / side)
      if (down >= height) break
      for (let column = 0; column < width * side; column += 1) {
        light[down * width + Math.floor(column / side)] +=
          transmissionOf[samples[row * widthPx + column]]
      }
    }
  }
  const grey = Buffer.from(Uint8Array.from(light, (sum) => shown(sum / side ** 2)))
  await sharp(grey, { raw: { width, height, channels: 1 } })
    .toColourspace('b-w')
    .png()
    .toFile(path)
}

/** The sRGB code (IEC 61966-2-1) of a share of the light; the table itself a little below white. */
function shown(share) {
  const linear = 0.92 * share
  return Math.round(
    255 * (linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055),
  )
}

/** @param {Film} film */
function densityTable({ transmissionOf }) {
  return Float32Array.from(transmissionOf, (light) => Math.abs(Math.log10(light)))
}

async function main() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      dpi: { type: 'string' },
      only: { type: 'string' },
      previews: { type: 'boolean', default: false },
    },
  })
  const [folder] = positionals
  const films = Object.values(DEMO_FILMS).filter(
    ({ name }) => values.only === undefined || name === values.only,
  )
  const dpi = values.dpi === undefined ? undefined : Number(values.dpi)
  if (
    folder === undefined ||
    films.length === 0 ||
    (dpi !== undefined && !(dpi >= 10 && dpi <= 2400))
  ) {
    console.error(
      `node gallery/films.mjs FOLDER [--dpi 10 to 2400] [--only ${Object.keys(DEMO_FILMS).join('|')}] [--previews]`,
    )
    process.exitCode = 2
    return
  }
  await mkdir(folder, { recursive: true })
  for (const demo of films) {
    const film = demo.draw(dpi === undefined ? {} : { resolutionDpi: dpi })
    const place = (ending) => join(resolve(folder), `${demo.name}${ending}`)
    if (values.previews) {
      await writePreview(film, place('.png'))
    } else {
      await writeDensityMap(film, place('.tif'))
      if (demo.name === 'cutMask') await writeOneBit(film, place('-1bit.tif'))
    }
    console.log(`${demo.title}, ${demo.medium}: ${film.widthPx} × ${film.heightPx} pixels`)
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await main()
