// One photo of a screen held to its film, by us or by the general-purpose vision library: prints CPU
// seconds and peak memory.
import { readFileSync } from 'node:fs'
import sharp from 'sharp'
import { cornersInPhoto } from './screenCase.mjs'

const [photoPath, filmPath, how] = process.argv.slice(2)

/** From the two files to the findings: the film is looked for, turned and mirrored, by itself. */
async function ours() {
  const { openPhoto } = await import('../dist/decode/photo.js')
  const { withFilm } = await import('../dist/decode/openFilm.js')
  const { inspectScreen } = await import('../dist/workflow/inspectScreen/inspectScreen.js')
  const photo = await openPhoto(photoPath)
  const { findings, resolutionUm } = await withFilm(filmPath, {}, ({ film }) =>
    inspectScreen(photo, film),
  )
  return { findings: findings.length, resolutionUm }
}

/** Told where the film lies; no light is fitted, no blur measured, no finding named. */
async function library() {
  const { openVision } = await import('../dist/decode/vision/openVision.js')
  const { vision: cv } = await openVision()
  const matOf = async (path, type, pipeline) => {
    const { data, info } = await pipeline.raw().toBuffer({ resolveWithObject: true })
    const mat = new cv.Mat(info.height, info.width, type)
    mat.data.set(data)
    return mat
  }
  const colour = await matOf(photoPath, cv.CV_8UC3, sharp(photoPath))
  const grey = new cv.Mat()
  cv.cvtColor(colour, grey, cv.COLOR_RGB2GRAY)
  colour.delete()
  const film = await matOf(filmPath, cv.CV_8UC1, sharp(filmPath).toColourspace('b-w'))
  const square = [0, 0, film.cols, 0, film.cols, film.rows, 0, film.rows]
  const view = cv.getPerspectiveTransform(
    cv.matFromArray(4, 1, cv.CV_32FC2, cornersInPhoto()),
    cv.matFromArray(4, 1, cv.CV_32FC2, square),
  )
  const flat = new cv.Mat()
  cv.warpPerspective(grey, flat, view, new cv.Size(film.cols, film.rows), cv.INTER_LINEAR)
  grey.delete()
  const due = new cv.Mat()
  cv.GaussianBlur(film, due, new cv.Size(0, 0), 1.2)
  cv.bitwise_not(due, due)
  const seen = new cv.Mat()
  cv.normalize(flat, seen, 0, 255, cv.NORM_MINMAX)
  const off = new cv.Mat()
  cv.absdiff(seen, due, off)
  cv.threshold(off, off, 110, 255, cv.THRESH_BINARY)
  const kernel = cv.getStructuringElement(cv.MORPH_RECT, new cv.Size(3, 3))
  cv.morphologyEx(off, off, cv.MORPH_OPEN, kernel)
  const [labels, stats, middles] = [new cv.Mat(), new cv.Mat(), new cv.Mat()]
  const count = cv.connectedComponentsWithStats(off, labels, stats, middles)
  return { findings: count - 1 }
}

sharp.concurrency(1)
const answer = await { ours, library }[how]()
const { user, system } = process.cpuUsage()
const [, kb] = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8')) ?? [null, 0]
process.stdout.write(
  JSON.stringify({ ...answer, cpuSec: (user + system) / 1e6, peakMb: Number(kb) / 1024 }),
)
