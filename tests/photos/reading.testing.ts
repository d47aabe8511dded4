import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fromArrayBuffer } from 'geotiff'
import type { Point } from '../../fixtures/photos/camera.ts'
import type { FilmTruth } from '../../fixtures/photos/photoOfFilm.ts'
import { json } from '../commands/run.ts'

/** What `read` answers, as far as it is measured here. */
export type ReadingAnswer = Readonly<{
  widthMm: number
  heightMm: number
  pixelUm: number
  densitySd: number
  densityRange: Readonly<{ low: number; high: number }>
  smallestLineUm: number
  light: Readonly<{ evenness: number }>
  corners: readonly Point[]
  warnings: readonly string[]
}>

export type MapRead = Readonly<{
  answer: ReadingAnswer
  densities: Float32Array
  widthPx: number
  heightPx: number
}>

/** Points as the command line takes them. */
export function flat(points: readonly Point[]): string {
  return points.map(({ x, y }) => `${x.toFixed(2)},${y.toFixed(2)}`).join(',')
}

export function millimetres({ widthMm, heightMm }: FilmTruth): string {
  return `${widthMm}x${heightMm}`
}

/** Runs `read` on a photo and opens the map it wrote with an independent reader of TIFF. */
export async function readPhotoFile(jpeg: Buffer, args: readonly string[]): Promise<MapRead> {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-photo-'))
  try {
    const [photo, out] = [join(folder, 'photo.jpg'), join(folder, 'map.tif')]
    await writeFile(photo, jpeg)
    const answer = (await json(['read', photo, '--out', out, ...args])) as ReadingAnswer
    const bytes = await readFile(out)
    const image = await (await fromArrayBuffer(new Uint8Array(bytes).buffer)).getImage()
    const [densities] = (await image.readRasters()) as unknown as [Float32Array]
    return { answer, densities, widthPx: image.getWidth(), heightPx: image.getHeight() }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** The arguments of a photo whose corners and wedge are pointed out by hand. */
export function pointedOut(truth: FilmTruth): readonly string[] {
  const wedge = truth.wedgeEnds === null ? [] : ['--wedge', flat(truth.wedgeEnds)]
  return ['--corners', flat(truth.corners), '--size-mm', millimetres(truth), ...wedge]
}

export type Errors = Readonly<{
  /** Share of map pixels, of those the photo can tell, whose true density lies within two stated sd. */
  withinShare: number
  /** By range of density: absolute errors in the middle of even places. */
  ranges: readonly Readonly<{
    low: number
    high: number
    count: number
    median: number
    p95: number
    bias: number
  }>[]
}>

const EDGES = [0, 0.1, 0.5, 1, 1.5, 2, 2.3]

/** Holds every third map pixel to the truth; even places are those flat over two stated resolutions. */
export function errorsOf(
  { answer, densities, widthPx, heightPx }: MapRead,
  truth: FilmTruth,
): Errors {
  const pixelMm = answer.pixelUm / 1000
  const flatMm = (2 * answer.smallestLineUm) / 1000
  const byRange: number[][] = EDGES.map(() => [])
  let [within, asked] = [0, 0]
  for (let row = 1; row < heightPx; row += 3) {
    for (let column = 1; column < widthPx; column += 3) {
      const [x, y] = [(column + 0.5) * pixelMm, (row + 0.5) * pixelMm]
      if (x < flatMm || y < flatMm || x > truth.widthMm - flatMm || y > truth.heightMm - flatMm)
        continue
      const density = truth.densityAt(x, y)
      if (density > answer.densityRange.high) continue
      const error = densities[row * widthPx + column] - density
      asked += 1
      if (Math.abs(error) <= 2 * answer.densitySd) within += 1
      const even = AROUND.every(
        ([dx, dy]) => truth.densityAt(x + dx * flatMm, y + dy * flatMm) === density,
      )
      if (even) byRange[EDGES.findLastIndex((edge) => density >= edge - 1e-6)].push(error)
    }
  }
  const ranges = EDGES.slice(0, -1).map((low, at) => ({
    low,
    high: EDGES[at + 1],
    ...spreadOf(byRange[at]),
  }))
  return { withinShare: within / asked, ranges }
}

const AROUND = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
  [0.7, 0.7],
  [-0.7, 0.7],
  [0.7, -0.7],
  [-0.7, -0.7],
]

function spreadOf(errors: readonly number[]) {
  const sizes = errors.map(Math.abs).sort((a, b) => a - b)
  const at = (share: number): number => sizes[Math.floor(share * (sizes.length - 1))] ?? Number.NaN
  const sorted = errors.toSorted((a, b) => a - b)
  return {
    count: errors.length,
    median: at(0.5),
    p95: at(0.95),
    bias: sorted[Math.floor(sorted.length / 2)] ?? Number.NaN,
  }
}
