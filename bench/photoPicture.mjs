// From the end of a photo's upload to its picture on the page, and to what was read in it: 24 million
// pixels of the mat, through the real server and a headless browser. The first photo after a start
// meets nobody at work, later ones a reader at rest. The clock counts on an idle machine alone.
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openBrowser, startServer } from './filmPicture.mjs'
import { matPhoto } from './photoCase.mjs'

const PATIENCE_MS = 180_000

export async function photoPictureBench({ report, rounds = 3 }) {
  const browser = await openBrowser(report)
  if (browser === null) return null
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    const path = join(folder, 'mat.jpg')
    await matPhoto(path)
    const server = await startServer(join(folder, 'shop'))
    try {
      const seen = []
      for (let round = 0; round <= rounds; round += 1) {
        seen.push(await brought(browser, server.url, path))
      }
      const [first, ...later] = seen
      const row = {
        firstPictureSec: first.pictureSec,
        pictureSec: median(later.map(({ pictureSec }) => pictureSec)),
        readSec: median(later.map(({ readSec }) => readSec)),
      }
      report(
        `photo of 24 Mpx, from the upload's end: picture on the page after ${row.firstPictureSec.toFixed(2)} s ` +
          `for the first photo, ${row.pictureSec.toFixed(2)} s for later ones; read after ${row.readSec.toFixed(2)} s`,
      )
      return row
    } finally {
      server.child.kill('SIGTERM')
      if (server.child.exitCode === null) await once(server.child, 'close')
    }
  } finally {
    await browser.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

/** One photo through the page: seconds from the end of its upload. */
async function brought(browser, url, path) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  page.setDefaultTimeout(PATIENCE_MS)
  try {
    await page.addInitScript(watchPage)
    await page.goto(`${url}/photo`)
    await page.waitForSelector('.take-choose')
    await page.setInputFiles('.take-choose input[type=file]', path)
    await page.waitForFunction(() => globalThis.seen.read !== undefined)
    const { sent, picture, read } = await page.evaluate(() => globalThis.seen)
    return { pictureSec: (picture - sent) / 1000, readSec: (read - sent) / 1000 }
  } finally {
    await page.close()
  }
}

/** In the page: when the upload was over, when the picture could be seen, when it was read. */
function watchPage() {
  const seen = {}
  globalThis.seen = seen
  globalThis.XMLHttpRequest = class extends XMLHttpRequest {
    send(body) {
      this.upload.addEventListener('load', () => {
        seen.sent ??= performance.now()
      })
      super.send(body)
    }
  }
  setInterval(() => {
    if (seen.sent === undefined) return
    const picture = document.querySelector('.photo img')
    if (picture?.complete && picture.naturalWidth > 0) seen.picture ??= performance.now()
    const isAtWork = document.querySelector('.photo-working, .take') !== null
    if (seen.picture !== undefined && !isAtWork) seen.read ??= performance.now()
  }, 25)
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]
}
