// From the end of an upload to the film's picture on the page and to its findings: a grainy A4 scan
// at 720 dpi, through the real server and a headless browser. Beside it what a general-purpose
// library takes to decode, blur, threshold and write the same file: sharp, in one thread. The clock
// counts on an idle machine alone; who reads films stands back behind everything else that runs.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { chromium } from 'playwright-core'
import sharp from 'sharp'
import { grainyScan } from './filmPictureCase.mjs'

const COMMAND = fileURLToPath(new URL('../bin/yellowroom.mjs', import.meta.url))
const PATIENCE_MS = 180_000
/** Of the system's clock for processes. */
const TICKS_PER_SEC = 100

export async function filmPictureBench({ report, rounds = 3 }) {
  const browser = await openBrowser(report)
  if (browser === null) return null
  const folder = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  const server = await startServer(join(folder, 'shop'))
  try {
    const scan = join(folder, 'grain.png')
    await grainyScan(scan)
    const seen = []
    for (let round = 0; round < rounds; round += 1) {
      seen.push({ ...(await brought(browser, server, scan)), sharp: await sharpOn(scan) })
    }
    const middle = (of) => median(seen.map(of))
    const row = {
      progressSec: middle(({ progressSec }) => progressSec),
      pictureSec: middle(({ pictureSec }) => pictureSec),
      findingsSec: middle(({ findingsSec }) => findingsSec),
      pictureCpuSec: middle(({ pictureCpu }) => sum(pictureCpu.map(({ cpuSec }) => cpuSec))),
      sharpCpuSec: middle((own) => own.sharp.cpuSec),
      sharpWallSec: middle((own) => own.sharp.wallSec),
    }
    report(
      `film, grainy A4 at 720 dpi, from the upload's end: progress after ${sec(row.progressSec)}, ` +
        `picture after ${sec(row.pictureSec)}, findings after ${sec(row.findingsSec)}`,
    )
    const last = seen.at(-1)
    report(
      `film, CPU up to the picture, ${sec(row.pictureCpuSec)} in all: ${told(last.pictureCpu)}`,
    )
    report(`film, CPU up to the findings: ${told(last.findingsCpu)}`)
    report(
      `film, sharp's decode, blur, threshold and PNG in one thread: ${sec(row.sharpCpuSec)} of CPU, ` +
        `${sec(row.sharpWallSec)} by the clock; ratio to our CPU ${(row.sharpCpuSec / row.pictureCpuSec).toFixed(2)}`,
    )
    return row
  } finally {
    await browser.close()
    server.child.kill('SIGTERM')
    if (server.child.exitCode === null) await once(server.child, 'close')
    rmSync(folder, { recursive: true, force: true })
  }
}

/** One film through the page: seconds from the end of its upload, and CPU of each thread. */
async function brought(browser, { url, child }, scan) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  page.setDefaultTimeout(PATIENCE_MS)
  try {
    await page.addInitScript(watchPage)
    await page.goto(`${url}/film`)
    await page.waitForSelector('.drop')
    const before = cpuOf(child.pid)
    await page.setInputFiles('input[type=file]', scan)
    await page.waitForFunction(() => globalThis.seen.picture !== undefined)
    const pictureCpu = since(before, cpuOf(child.pid))
    await page.waitForFunction(() => globalThis.seen.findings !== undefined)
    const findingsCpu = since(before, cpuOf(child.pid))
    const { sent, progress, picture, findings } = await page.evaluate(() => globalThis.seen)
    return {
      progressSec: (progress - sent) / 1000,
      pictureSec: (picture - sent) / 1000,
      findingsSec: (findings - sent) / 1000,
      pictureCpu,
      findingsCpu,
    }
  } finally {
    await page.close()
  }
}

/** In the page: when the upload was over, and when what first stood there. */
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
  /** Something dark in one of three rows. */
  const isPainted = () => {
    const canvas = document.querySelector('.film-stage canvas[width]')
    if (canvas === null) return false
    const { width, height } = canvas
    return [0.25, 0.5, 0.75].some((share) => {
      const { data } = canvas.getContext('2d').getImageData(0, Math.floor(height * share), width, 1)
      return data.some((value, at) => at % 4 === 0 && data[at + 3] === 255 && value < 160)
    })
  }
  setInterval(() => {
    const now = performance.now()
    if (seen.sent === undefined) return
    if (document.querySelector('.how-far')?.textContent.startsWith('Being read')) {
      seen.progress ??= now
    }
    if (seen.picture === undefined && isPainted()) {
      seen.picture = now
      seen.progress ??= now
    }
    if (document.querySelector('.finding') !== null) seen.findings ??= now
  }, 25)
}

async function sharpOn(scan) {
  sharp.concurrency(1)
  sharp.cache(false)
  const [cpu, began] = [process.cpuUsage(), performance.now()]
  await sharp(scan, { limitInputPixels: false })
    .toColourspace('b-w')
    .blur(1.5)
    .threshold(128, { greyscale: false })
    .png({ compressionLevel: 1 })
    .toBuffer()
  const { user, system } = process.cpuUsage(cpu)
  return { cpuSec: (user + system) / 1e6, wallSec: (performance.now() - began) / 1000 }
}

/** CPU seconds of each thread of a process and of those it started; Linux alone tells. */
export function cpuOf(pid) {
  const threads = new Map()
  const look = (process, name) => {
    for (const task of listed(`/proc/${process}/task`)) {
      const stat = textOf(`/proc/${process}/task/${task}/stat`)
      const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
      const ticks = Number(fields[11]) + Number(fields[12])
      if (ticks > 0) threads.set(`${name} ${task}`, ticks / TICKS_PER_SEC)
      const children = textOf(`/proc/${process}/task/${task}/children`).trim()
      for (const child of children === '' ? [] : children.split(' ')) look(child, 'reader')
    }
  }
  look(pid, 'server')
  return threads
}

function since(before, now) {
  return [...now]
    .map(([thread, cpuSec]) => ({ thread, cpuSec: cpuSec - (before.get(thread) ?? 0) }))
    .filter(({ cpuSec }) => cpuSec >= 0.05)
    .sort((a, b) => b.cpuSec - a.cpuSec)
}

function told(threads) {
  const named = threads.map(({ thread, cpuSec }) => `${thread.split(' ')[0]} ${cpuSec.toFixed(2)}`)
  return named.length === 0 ? 'not known on this system' : named.join(', ')
}

function listed(path) {
  try {
    return readdirSync(path)
  } catch {
    return [] // it ended meanwhile
  }
}

function textOf(path) {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return ''
  }
}

export async function startServer(data) {
  const child = spawn(process.execPath, [COMMAND, 'start'], {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', YELLOWROOM_DATA: data },
  })
  const url = await new Promise((resolve, reject) => {
    let said = ''
    const hear = (part) => {
      said += part.toString()
      const [, address] = /Yellowroom is at (http:\/\/\S+)/.exec(said) ?? []
      if (address !== undefined) resolve(address)
    }
    child.stdout.on('data', hear)
    child.stderr.on('data', hear)
    child.once('close', () => reject(new Error(said)))
  })
  for (;;) {
    const { status, message } = await (await fetch(`${url}/api/health`)).json()
    if (status === 'ready') break
    if (status === 'failed') throw new Error(message)
    await new Promise((later) => setTimeout(later, 100))
  }
  const headers = { 'content-type': 'application/json' }
  await fetch(`${url}/api/shop/own`, { method: 'POST', headers, body: '{}' })
  return { child, url }
}

export async function openBrowser(report) {
  const executablePath = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium'
  const args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage']
  try {
    return await chromium.launch({ executablePath, args })
  } catch {
    report(`There is no Chromium at ${executablePath}: name one in CHROMIUM_PATH.`)
    return null
  }
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]
}

function sum(values) {
  return values.reduce((total, value) => total + value, 0)
}

function sec(seconds) {
  return `${seconds.toFixed(2)} s`
}
