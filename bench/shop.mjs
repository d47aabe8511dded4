// A shop of five years and 5,000 readings on the real server: what one more reading costs, and a start.
// There is no general-purpose tool that does this work: milliseconds of this machine's CPU, all
// threads of the process together, and of the clock.
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { yellowroomApp } from '../dist/server/app.js'
import { shopDoor } from '../dist/server/door.js'
import { shopService } from '../dist/server/shop/shopService.js'
import { openShop } from '../dist/store/openShop.js'
import { addReadings } from '../dist/store/readings.js'

const READINGS = 5000
const YEARS = 5
const ROUNDS = 20
const DAY_MS = 24 * 3600_000
/** Evenings are kept for the next start when nothing has changed for five seconds. */
const CALM_MS = 6000

export async function shopBench({ report }) {
  const folder = await mkdtemp(join(tmpdir(), 'yellowroom-bench-'))
  try {
    return await measured(folder, (name, { wallMs, cpuMs }) =>
      report(
        `shop of ${READINGS} readings, ${name}: ${cpuMs.toFixed(0)} ms of CPU, ${wallMs.toFixed(0)} ms`,
      ),
    )
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function measured(folder, report) {
  const first = await opened(folder)
  await first.post('/api/shop/own', { fabric: '90-48' })
  await fill(first.store)
  const cold = await timed(() => first.get('/api/light'))
  report('first dose, nothing kept', cold)
  const warm = await timed(() => first.get('/api/light?medium=opaque%20paint'))
  report('another medium after it', warm)
  const told = []
  const doses = []
  for (let round = 0; round < ROUNDS; round++) {
    const body = {
      kind: 'outcome',
      medium: 'soft pencil',
      doseLu: 40 + round,
      is: { grade: 'good' },
    }
    told.push(await timed(() => first.post('/api/tests/readings', body)))
    doses.push(await timed(() => first.get('/api/light')))
  }
  const reading = middle(told)
  const dose = middle(doses)
  report('one more reading', reading)
  report('the dose after it', dose)
  await new Promise((resolve) => setTimeout(resolve, CALM_MS))
  await first.close()
  const again = await opened(folder)
  const restart = await timed(() => again.get('/api/light'))
  report('first dose after a new start', restart)
  await again.close()
  return { cold, warm, reading, dose, restart }
}

async function timed(work) {
  const [cpu, wall] = [process.cpuUsage(), performance.now()]
  await work()
  const { user, system } = process.cpuUsage(cpu)
  return { wallMs: performance.now() - wall, cpuMs: (user + system) / 1000 }
}

function middle(all) {
  return all.toSorted((a, b) => a.cpuMs - b.cpuMs)[all.length >> 1]
}

async function opened(folder) {
  const store = await openShop(folder)
  const onTrouble = (cause) => {
    throw cause
  }
  const door = shopDoor(() => shopService(store, { onTrouble }))
  await door.settled
  const app = yellowroomApp(door, { token: null })
  const answer = async (response) => {
    const json = await response.json()
    if (!response.ok) throw new Error(JSON.stringify(json))
    return json
  }
  const headers = { 'content-type': 'application/json' }
  return {
    store,
    close: () => door.close(),
    get: async (path) => answer(await app.request(path)),
    post: async (path, body) =>
      answer(await app.request(path, { method: 'POST', headers, body: JSON.stringify(body) })),
  }
}

/** Nearly three readings a day: screens, and every tenth a wedge. */
async function fill({ database }) {
  let state = 7
  const share = () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  const one = async (table) => (await database.selectFrom(table).selectAll().execute())[0]
  const [unit, fabric, emulsion] = [await one('unit'), await one('fabric'), await one('emulsion')]
  const media = await database.selectFrom('medium').selectAll().execute()
  const now = Date.now()
  const readings = Array.from({ length: READINGS }, (_, at) => {
    const ageMs = DAY_MS + Math.round(((READINGS - at) / READINGS) * YEARS * 365 * DAY_MS)
    const common = {
      takenAt: new Date(now - ageMs),
      unitId: unit.id,
      fabricId: fabric.id,
      emulsionId: emulsion.id,
      recipe: 'once on each side',
    }
    if (at % 10 === 0) {
      const wedge = { doseLu: 60, firstDensity: 0.05, increment: 0.15, steps: 21 }
      const lastSolidStep = 6 + Math.floor(2 * share())
      const reading = { ...common, kind: 'wedge', ...wedge, lastSolidStep, firstClearStep: 9 }
      return { reading, bands: [] }
    }
    const chance = share()
    const grade = chance < 0.1 ? 'soft' : chance > 0.9 ? 'filling' : 'good'
    return {
      reading: { ...common, kind: 'outcome', mediumId: media[at % 5].id },
      bands: [{ doseLu: 35 + 25 * share(), grade }],
    }
  })
  await addReadings(database, readings, { at: new Date(now) })
}
