import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { FilmList } from '../../src/api/films.ts'
import { PATHS } from '../../src/api/paths.ts'
import { badFilms, goodFilm } from '../server/badFilms.ts'
import { asJson, opened, PENCIL, postJson, until } from '../server/shopRoom.ts'
import { THOROUGH } from '../thorough.testing.ts'
import { LAPTOP, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { PAINTED, settledInks } from './filmPage.testing.ts'
import { type OwnServer, startOwnYellowroom } from './realServer.testing.ts'
import { densityMap, inkOverPencil, largeScan, scanPng } from './scans.testing.ts'

const PATIENCE_MS = 120_000

let browser: Browser
let server: OwnServer
let page: Page
let large = new Uint8Array(0)

beforeAll(async () => {
  ;[browser, server, large] = await Promise.all([openBrowser(), startOwnYellowroom(), largeScan()])
  await opened(server)
  expect((await postJson(server.url + PATHS.ownShop)).status).toBe(201)
  const context = await browser.newContext({ ...LAPTOP, bypassCSP: true, reducedMotion: 'reduce' })
  page = await context.newPage()
  page.setDefaultTimeout(60_000)
}, PATIENCE_MS)

afterAll(async () => {
  await browser.close()
  await server.stop()
})

const upload = (): Promise<unknown> => page.goto(`${server.url}/film`)

function choose(name: string, bytes: Uint8Array): Promise<void> {
  const buffer = Buffer.from(bytes)
  return page.setInputFiles('input[type=file]', { name, mimeType: '', buffer })
}

async function filmsHere(): Promise<readonly string[]> {
  const { films } = (await asJson(server.url + PATHS.films)) as FilmList
  return films.map(({ name }) => name)
}

/** What lies about for a while in the shop's folder, apart from readers who rest. */
const leftLying = async (): Promise<readonly string[]> =>
  (await readdir(join(server.folder, 'incoming'))).filter((name) => !name.startsWith('work-'))
const says = (): Promise<string | null> => page.locator('.how-far').textContent()

describe('a film comes in', () => {
  test('dropped on the page: what the file does not say is asked for, then it stands there', async () => {
    await upload()
    const bytes = scanPng(inkOverPencil()).toString('base64')
    const files = await page.evaluateHandle((base64) => {
      const dropped = new DataTransfer()
      const content = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
      dropped.items.add(new File([content], 'ink over pencil.png'))
      return dropped
    }, bytes)
    await page.locator('.drop').dispatchEvent('drop', { dataTransfer: files })
    await expect.poll(says, { timeout: 30_000 }).toContain('give it in pixels per inch')
    await page.getByLabel('Pixels per inch').fill('200')
    await page.getByRole('button', { name: 'Read ink over pencil.png' }).click()
    await page.waitForSelector(PAINTED)
    expect((await settledInks(page)).ink).toBeGreaterThan(5000)
    expect(await page.locator('.film-name').textContent()).toBe('ink over pencil')
    await page.waitForSelector('.finding')
  })

  test('chosen, as a density map of 32-bit floats', async () => {
    await upload()
    await page.getByLabel('Pixels per inch').fill('200')
    await choose('densities.tif', await densityMap(inkOverPencil()))
    await page.waitForSelector(PAINTED)
    expect((await settledInks(page)).ink).toBeGreaterThan(5000)
  })

  test('a wrong number is said beside its blank and nothing is sent', async () => {
    const before = await filmsHere()
    await upload()
    await page.getByLabel('Pixels per inch').fill('72o')
    await choose('never.png', await goodFilm())
    await expect.poll(() => page.getByText('You wrote “72o”').count()).toBe(1)
    expect(await says()).toBe('')
    expect(await filmsHere()).toEqual(before)
  })
})

/** Every fifth of the kinds; `npm run test:long` tries all, and the server's own tests do too. */
const KINDS = THOROUGH ? badFilms : badFilms.filter((_, at) => at % 5 === 0)

describe('what is no film', () => {
  test(
    'is refused in one sentence each, and the server stays up',
    async () => {
      const before = await filmsHere()
      await upload()
      const resolution = page.getByLabel('Pixels per inch')
      for (const { name, bytes, words, query } of KINDS) {
        await resolution.fill(/\d+/.exec(query)?.[0] ?? '')
        await choose(name, await bytes())
        const refused = page.locator('.upload-refused', { hasText: `"${name}"` })
        await refused.waitFor()
        expect([name, await refused.textContent()]).toEqual([name, expect.stringContaining(words)])
      }
      expect(((await asJson(server.url + PATHS.health)) as { status: string }).status).toBe('ready')
      await expect.poll(filmsHere).toEqual(before)
      expect(await violations(page)).toEqual([])
      await page.setViewportSize(PHONE.viewport)
      await expect.poll(() => lowTargets(page)).toEqual([]) // doors are laid anew
      await page.setViewportSize(LAPTOP.viewport)
      await resolution.fill('300')
      await choose('whole.png', await goodFilm())
      await page.waitForSelector(PAINTED)
    },
    PATIENCE_MS,
  )
})

describe('Stop', () => {
  const onLinux = test.skipIf(process.platform !== 'linux') // processes are found in /proc
  onLinux(
    'while it is read: within a second nobody reads it, and nothing is left',
    async () => {
      const before = await filmsHere()
      await upload()
      await choose('stopped.png', large)
      await page.getByText('Being read').waitFor()
      expect(server.readers()).toHaveLength(1)
      await page.getByRole('button', { name: 'Stop' }).click()
      await until(async () => (server.readers().length === 0 ? true : null), 'its end', 1000)
      await expect.poll(says).toBe('Stopped. Nothing of it is kept in the shop.')
      expect(await filmsHere()).toEqual(before)
      await expect.poll(leftLying).toEqual([])
      await choose('after it.png', await readFile(PENCIL))
      await page.waitForSelector(PAINTED)
      expect(await filmsHere()).toEqual(expect.arrayContaining([...before, 'after it']))
    },
    PATIENCE_MS,
  )

  test(
    'the page of a film that is being read keeps what every page keeps',
    async () => {
      await upload()
      await choose('looked at.png', large)
      await page.getByText('Being read').waitFor()
      expect(await violations(page)).toEqual([])
      await page.waitForSelector(PAINTED)
    },
    PATIENCE_MS,
  )

  test('while it is on its way: it never was in the shop', async () => {
    const before = await filmsHere()
    await upload()
    const line = await page.context().newCDPSession(page)
    const slow = { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: 200_000 }
    await line.send('Network.emulateNetworkConditions', slow)
    await choose('on its way.png', large)
    await page.getByText('On its way').waitFor()
    await page.getByRole('button', { name: 'Stop' }).click()
    await expect.poll(says).toBe('Stopped. Nothing of it is kept in the shop.')
    await line.detach()
    await expect.poll(leftLying).toEqual([])
    expect(await filmsHere()).toEqual(before)
  })
})

test.runIf(THOROUGH)(
  'power cuts while a film is read: each page says so, and comes to its end by itself',
  async () => {
    await upload()
    await choose('cut off.png', large)
    await page.getByText('Being read').waitFor()
    await server.kill()
    await expect.poll(says, { timeout: 10_000 }).toContain('No connection')
    expect(await violations(page)).toEqual([])
    await server.startAgain()
    await page.waitForSelector(PAINTED)
    expect(await page.locator('.finding').count()).toBe(0)
    await server.kill()
    await page.getByText(/^As of .*, no connection\.$/).waitFor()
    expect(await violations(page)).toEqual([])
    await server.startAgain()
    await page.waitForSelector('.finding')
    // tiles that did not come are asked for again
    const ink = async (): Promise<number> => (await settledInks(page)).ink
    await expect.poll(ink, { timeout: 10_000 }).toBeGreaterThan(2000)
    expect(await page.getByText('no connection').count()).toBe(0)
    expect(await page.locator('.film-name').textContent()).toBe('cut off')
  },
  2 * PATIENCE_MS,
)
