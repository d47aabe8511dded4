// One photo read, by us or by the general-purpose vision library: prints CPU seconds and peak memory.
import { readFileSync } from 'node:fs'
import sharp from 'sharp'

const [path, how, size] = process.argv.slice(2)
const DENSITIES = Array.from({ length: 21 }, (_, step) => 0.05 + 0.15 * step)

/** From the file to the density map, its limits, its marks. */
async function ours() {
  const { photoOnMat } = await import('../dist/decode/vision/photoOnMat.js')
  const { readPhoto } = await import('../dist/workflow/readPhoto/readPhoto.js')
  const { photo, targets } = await photoOnMat(path)
  const { map, reading } = readPhoto(photo, {
    targets,
    wedge: { ends: null, densities: DENSITIES },
  })
  const { widthPx, heightPx } = map
  return { widthPx, heightPx, densitySd: reading.densitySd, wedge: reading.wedge !== null }
}

/**
 * The same file decoded, its targets found at half its size, its window laid flat as large as ours,
 * each value turned to a density by a table. No wedge is read, no light evened out, no limit told,
 * no mark found.
 */
async function library() {
  const { openVision } = await import('../dist/decode/vision/openVision.js')
  const { vision: cv } = await openVision()
  const { data, info } = await sharp(path).raw().toBuffer({ resolveWithObject: true })
  const colour = new cv.Mat(info.height, info.width, cv.CV_8UC3)
  colour.data.set(data)
  const image = new cv.Mat()
  cv.cvtColor(colour, image, cv.COLOR_RGB2GRAY)
  colour.delete()
  const small = new cv.Mat()
  cv.resize(image, small, new cv.Size(info.width >> 1, info.height >> 1), 0, 0, cv.INTER_AREA)
  const dictionary = cv.getPredefinedDictionary(cv.DICT_4X4_50)
  const refine = new cv.aruco_RefineParameters(10, 3, true)
  const parameters = new cv.aruco_DetectorParameters()
  const detector = new cv.aruco_ArucoDetector(dictionary, parameters, refine)
  const [corners, numbers] = [new cv.MatVector(), new cv.Mat()]
  detector.detectMarkers(small, corners, numbers)
  if (numbers.rows < 8) throw new Error(`the library found ${numbers.rows} targets`)
  const [widthPx, heightPx] = size.split('x').map(Number)
  // the window's corners stand where our reading has them: the layout of the mat is no work
  const [left, top] = [(info.width - widthPx) / 2, (info.height - heightPx) / 2]
  const square = [0, 0, widthPx, 0, widthPx, heightPx, 0, heightPx]
  const seen = square.map((value, at) => value + (at % 2 === 0 ? left + 9 : top - 7))
  const view = cv.getPerspectiveTransform(
    cv.matFromArray(4, 1, cv.CV_32FC2, seen),
    cv.matFromArray(4, 1, cv.CV_32FC2, square),
  )
  const flat = new cv.Mat()
  cv.warpPerspective(image, flat, view, new cv.Size(widthPx, heightPx), cv.INTER_LINEAR)
  const table = new cv.Mat(1, 256, cv.CV_32FC1)
  for (let value = 0; value < 256; value += 1) {
    table.data32F[value] = -Math.log10(Math.max(1e-4, (value / 255) ** 2.2))
  }
  const density = new cv.Mat()
  cv.LUT(flat, table, density)
  return { widthPx: density.cols, heightPx: density.rows, targets: numbers.rows }
}

/** The upright small picture that the page shows first. */
async function firstPicture() {
  const { writePhotoPreview } = await import('../dist/decode/photoPreview.js')
  return writePhotoPreview(path, `${path}.preview`)
}

sharp.concurrency(1)
const answer = await { ours, library, 'first picture': firstPicture }[how]()
const { user, system } = process.cpuUsage()
const [, kb] = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8')) ?? [null, 0]
process.stdout.write(
  JSON.stringify({ ...answer, cpuSec: (user + system) / 1e6, peakMb: Number(kb) / 1024 }),
)
