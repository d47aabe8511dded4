// A warm start of the server on a shop that is there: until it listens, until the shop is open and
// until a browser shows the first page. Beside each a bare node:http server until it answers, which
// is what the machine gives at that moment. The clock counts on an idle machine alone.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { cpuOf, openBrowser } from './filmPicture.mjs'

const COMMAND = fileURLToPath(new URL('../bin/yellowroom.mjs', import.meta.url))
const BARE = `const server = require('node:http').createServer((_, response) => response.end('here'))
server.listen(0, '127.0.0.1', () => console.log('Bare is at http://127.0.0.1:' + server.address().port))`

export async function startBench({ report, rounds = 5 }) {
  const browser = await openBrowser(report)
  const data = mkdtempSync(join(tmpdir(), 'yellowroom-bench-'))
  try {
    await started(data, async (url) => {
      await ready(url)
      const headers = { 'content-type': 'application/json' }
      await fetch(`${url}/api/shop/own`, { method: 'POST', headers, body: '{}' })
    })
    const seen = []
    for (let round = 0; round < rounds; round += 1) {
      const bareSec = await bare()
      seen.push({ bareSec, ...(await started(data, (url, since) => watched(browser, url, since))) })
    }
    const row = Object.fromEntries(
      ['bareSec', 'listenSec', 'readySec', 'pageSec', 'cpuSec'].map((name) => [
        name,
        middle(seen.map((own) => own[name])),
      ]),
    )
    report(
      `start, warm: listens after ${sec(row.listenSec)}, shop open after ${sec(row.readySec)}` +
        `${browser === null ? '' : `, first page after ${sec(row.pageSec)}`}; ${sec(row.cpuSec)} of CPU; ` +
        `a bare server answers after ${sec(row.bareSec)}`,
    )
    return row
  } finally {
    await browser?.close()
    rmSync(data, { recursive: true, force: true })
  }
}

/** A server for as long as `use` runs: what that answers, when it listened and its CPU. */
async function started(data, use) {
  const began = performance.now()
  const since = () => (performance.now() - began) / 1000
  const child = spawn(process.execPath, [COMMAND, 'start'], {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', YELLOWROOM_DATA: data },
  })
  try {
    const url = await address(child)
    const listenSec = since()
    const used = await use(url, since)
    return { listenSec, ...used, cpuSec: sum(cpuOf(child.pid).values()) }
  } finally {
    child.kill('SIGTERM')
    if (child.exitCode === null) await once(child, 'close')
  }
}

async function watched(browser, url, since) {
  const open = ready(url).then(since)
  const page = await browser?.newPage()
  try {
    await page?.goto(url)
    // the dose stands on the first page of a shop that is there
    await page?.waitForSelector('.answer-picture')
    const pageSec = since()
    return { readySec: await open, pageSec }
  } finally {
    await page?.close()
  }
}

async function ready(url) {
  for (;;) {
    const { status, message } = await (await fetch(`${url}/api/health`)).json()
    if (status === 'ready') return
    if (status === 'failed') throw new Error(message)
    await new Promise((later) => setTimeout(later, 20))
  }
}

async function bare() {
  const began = performance.now()
  const child = spawn(process.execPath, ['-e', BARE])
  await (await fetch(await address(child))).text()
  const sec = (performance.now() - began) / 1000
  child.kill()
  await once(child, 'close')
  return sec
}

function middle(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]
}

function sum(values) {
  return [...values].reduce((total, value) => total + value, 0)
}

function sec(seconds) {
  return `${seconds?.toFixed(2)} s`
}

function address(child) {
  return new Promise((resolve, reject) => {
    let said = ''
    child.stdout.on('data', (part) => {
      said += part.toString()
      const [, found] = / is at (http:\/\/\S+)/.exec(said) ?? []
      if (found !== undefined) resolve(found)
    })
    child.once('close', () => reject(new Error(`no server: ${said}`)))
  })
}
