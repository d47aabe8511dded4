import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { run } from '../../src/api/bench.ts'
import { clocks } from '../../src/api/clocks.ts'
import { PATHS, runPath, screenActsPath } from '../../src/api/paths.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { opened, postJson, until } from '../server/shopRoom.ts'
import { PHONE } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type OwnServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000
const SLEPT_MS = 12_000
/** Awake for so long, it has to be right. */
const SOON_MS = 500
/** An answer is held for so long on its way to the page. */
const LONG_MS = 6000
/** The clocks of the device and of the screen. */
const ASKING = 2
/** A screen of the demo shop that waits for reclaim. */
const REMOVER_ON = '/screens/22'
/** Another. */
const TOLD_LATE_ON = '15'
/** A step of the demo shop's list: wind the vacuum's clock up to a minute. */
const VACUUM_SEC = 60

let browser: Browser
let server: OwnServer

beforeAll(async () => {
  ;[browser, server] = await Promise.all([openBrowser(), startOwnYellowroom()])
  await opened(server)
  expect((await postJson(`${server.url}${PATHS.demoShop}`)).status).toBe(201)
}, PATIENCE_MS)
afterAll(async () => {
  await browser.close()
  await server.stop()
})

/** A second that has begun is shown whole: half of one too much, on the whole. */
const ROUNDED_SEC = 0.5

const STEPS = [
  'Begin',
  'It is the one, and dry',
  'Clean and dry',
  'Reads right, image side up',
  'Clear all round, cord laid',
  'It rests and is latched',
  'The pump runs',
] as const

/** Seconds that the clock shows, and that are left since the press that started it, at one moment. */
async function seconds(page: Page): Promise<Readonly<{ shown: number; left: number }>> {
  const { text, sinceMs } = await page.evaluate(() => ({
    text: document.querySelector('[role=timer]')?.textContent ?? '',
    sinceMs: Date.now() - (globalThis as unknown as { pressedAt: number }).pressedAt,
  }))
  const [, min = '', sec = ''] = /(\d+):(\d\d)/.exec(text) ?? []
  return { shown: 60 * Number(min) + Number(sec), left: VACUUM_SEC - sinceMs / 1000 }
}

/** Stops all of the browser's own processes, as a device that sleeps does, and lets them go on. */
async function sleeps(forMs: number): Promise<void> {
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = (await session.send('SystemInfo.getProcessInfo')) as {
    processInfo: readonly Readonly<{ id: number; type: string }>[]
  }
  await session.detach()
  expect(processInfo.some(({ type }) => type === 'renderer')).toBe(true)
  for (const { id } of processInfo) process.kill(id, 'SIGSTOP')
  await new Promise((wake) => setTimeout(wake, forMs))
  for (const { id } of processInfo) process.kill(id, 'SIGCONT')
}

test(
  'a clock is right within 1 s once a device that slept is awake',
  async () => {
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    await page.goto(server.url)
    await page.getByRole('link', { name: 'Take it to the bench' }).click()
    await page.evaluate(() =>
      addEventListener('click', () => Object.assign(globalThis, { pressedAt: Date.now() }), true),
    )
    for (const words of STEPS) {
      await page.getByRole('button', { name: words, exact: true }).click()
    }
    await page.getByRole('timer').waitFor()
    const id = new URL(page.url()).pathname.split('/').at(-1) ?? ''
    await until(async () => {
      const { events } = run.parse(await (await fetch(`${server.url}${runPath(id)}`)).json())
      return events.some(({ kind }) => kind === 'clock') ? true : null
    }, 'telling')
    const awake = await seconds(page)
    near(awake.shown - ROUNDED_SEC, awake.left, { within: 1, because: 'as asked of a clock' })
    await sleeps(SLEPT_MS)
    await page.waitForTimeout(SOON_MS)
    const after = await seconds(page)
    expect(awake.left - after.left).toBeGreaterThan(SLEPT_MS / 1000)
    near(after.shown - ROUNDED_SEC, after.left, {
      within: 1,
      because: 'what is asked of a clock after sleep',
    })
    await context.close()
  },
  PATIENCE_MS,
)

test(
  'remover’s clock does not move by an answer that is long on its way',
  async () => {
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    await page.goto(`${server.url}${REMOVER_ON}`)
    await page.getByRole('button', { name: 'Reclaim it' }).click()
    await page.getByRole('button', { name: 'The remover is on' }).click()
    const clock = page.getByRole('complementary', { name: 'Your clocks' }).getByRole('timer')
    await clock.waitFor()
    await page.waitForResponse((response) => response.url().endsWith(PATHS.clocks))
    const end = async (): Promise<number> => {
      const text = (await clock.textContent()) ?? ''
      const [, min = '', sec = ''] = /(\d+):(\d\d)/.exec(text) ?? []
      return Date.now() / 1000 + 60 * Number(min) + Number(sec)
    }
    const before = await end()
    let held = 0
    await page.route(`**${PATHS.clocks}`, async (route) => {
      const response = await route.fetch()
      await new Promise((after) => setTimeout(after, LONG_MS))
      await route.fulfill({ response })
      held++
    })
    // whatever shows clocks asks again, each for itself
    await page.evaluate(() => dispatchEvent(new Event('online')))
    await until(() => Promise.resolve(held >= ASKING || null), 'held answers')
    await page.waitForTimeout(SOON_MS)
    near(await end(), before, { within: 1.5, because: 'within 1 s, each rounded to a second' })
    await page.unrouteAll({ behavior: 'ignoreErrors' })
    await context.close()
  },
  PATIENCE_MS,
)

test(
  'remover’s clock begins when it was pressed, however long its telling sleeps before it leaves',
  async () => {
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    const waits = { kind: 'state', to: 'to reclaim', key: 'waits-for-reclaim' }
    const done = await postJson(`${server.url}${screenActsPath(TOLD_LATE_ON)}`, waits)
    expect(done.status).toBe(200)
    // by keys: a browser that was stopped takes a phone's touches for places it has scrolled past
    const heard = page.waitForResponse((response) => response.url().endsWith(PATHS.clocks))
    await page.goto(`${server.url}/screens/${TOLD_LATE_ON}`)
    await heard
    await page.getByRole('button', { name: 'Reclaim it' }).press('Enter')
    await page.route(`**${PATHS.clocks}`, async (route) => {
      if (route.request().method() === 'POST') {
        await new Promise((after) => setTimeout(after, LONG_MS))
      }
      await route.continue()
    })
    const pressedMs = Date.now()
    await page.getByRole('button', { name: 'The remover is on' }).press('Enter')
    const begun = await until(async () => {
      const told = clocks.parse(await (await fetch(`${server.url}${PATHS.clocks}`)).json())
      return told.clocks.find(({ screen }) => screen === TOLD_LATE_ON) ?? null
    }, 'telling')
    expect(Date.now() - pressedMs).toBeGreaterThan(LONG_MS)
    near(Date.parse(begun.startedAt), pressedMs, { within: 1000, because: 'as asked of a clock' })
    await page.unrouteAll({ behavior: 'ignoreErrors' })
    await context.close()
  },
  PATIENCE_MS,
)
