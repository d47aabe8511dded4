// A new dose on the picture of a film: from the key that moves the dose on the cloth until the
// canvas is painted, and until the browser's next frame. A grainy A4 film at 720 dpi in a browser
// without a graphics card, its picture as large as the window makes it. Beside it a plain copy of as
// many pixels onto a canvas. The clock counts on an idle machine alone.
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openBrowser, startServer } from './filmPicture.mjs'
import { grainyScan } from './filmPictureCase.mjs'

const PATIENCE_MS = 180_000
/** Makes the film's picture larger than two million pixels. */
const WINDOW = { width: 2400, height: 1900 }

export async function dosePictureBench({ report, doses = 60 }) {
  const browser = await openBrowser(report)
  if (browser === null) return null
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  const server = await startServer(join(folder, 'shop'))
  try {
    const scan = join(folder, 'grain.png')
    await grainyScan(scan)
    const page = await browser.newPage({ viewport: WINDOW })
    page.setDefaultTimeout(PATIENCE_MS)
    await page.addInitScript(watchPage)
    await page.goto(`${server.url}/film`)
    await page.waitForSelector('.drop')
    await page.setInputFiles('input[type=file]', scan)
    await page.waitForSelector('.finding')
    await page.waitForTimeout(2000)
    const slider = page.locator('.cloth [role=slider]')
    await slider.focus()
    for (let turn = 0; turn < doses; turn += 1) {
      await slider.press(turn % 20 < 10 ? 'ArrowRight' : 'ArrowLeft')
      await page.waitForTimeout(60)
    }
    const { painted, framed, mpx } = await page.evaluate(() => globalThis.seen)
    const row = {
      mpx,
      paintedMs: middle(painted),
      worstMs: most(painted),
      framedMs: middle(framed),
      copyMs: await page.evaluate(copied, mpx),
    }
    report(
      `dose on a picture of ${mpx.toFixed(1)} Mpx, ${painted.length} doses: painted after ` +
        `${row.paintedMs.toFixed(1)} ms (at most ${row.worstMs.toFixed(1)}), in its frame after ` +
        `${row.framedMs.toFixed(1)} ms; a plain copy of as many pixels ${row.copyMs.toFixed(1)} ms`,
    )
    return row
  } finally {
    await browser.close()
    server.child.kill('SIGTERM')
    if (server.child.exitCode === null) await once(server.child, 'close')
    rmSync(folder, { recursive: true, force: true })
  }
}

/** In the page: milliseconds from a key to the largest canvas painted, and to the frame after it. */
function watchPage() {
  const seen = { painted: [], framed: [], mpx: 0 }
  globalThis.seen = seen
  let pressedMs = null
  globalThis.addEventListener('keydown', (event) => (pressedMs = event.timeStamp), true)
  const brush = CanvasRenderingContext2D.prototype
  brush.putImageData = new Proxy(Reflect.get(brush, 'putImageData'), {
    apply(put, canvas, given) {
      Reflect.apply(put, canvas, given)
      const [image] = given
      const mpx = (image.width * image.height) / 1e6
      if (pressedMs === null || mpx < 0.5) return
      const since = pressedMs
      pressedMs = null
      seen.mpx = mpx
      seen.painted.push(performance.now() - since)
      requestAnimationFrame(() => setTimeout(() => seen.framed.push(performance.now() - since)))
    },
  })
}

/** In the page: milliseconds that so many million pixels take onto a canvas, the middle of nine. */
function copied(mpx) {
  const canvas = document.createElement('canvas')
  canvas.width = 2000
  canvas.height = Math.round((mpx * 1e6) / 2000)
  const brush = canvas.getContext('2d')
  const from = brush.createImageData(canvas.width, canvas.height)
  const to = brush.createImageData(canvas.width, canvas.height)
  const times = Array.from({ length: 9 }, () => {
    const began = performance.now()
    to.data.set(from.data)
    brush.putImageData(to, 0, 0)
    return performance.now() - began
  })
  return times.sort((a, b) => a - b)[4]
}

function middle(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]
}

function most(values) {
  return Math.max(...values)
}
