import { readFile } from 'node:fs/promises'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { filmPath, PATHS } from '../../src/api/paths.ts'
import { type Asks, opened, PENCIL, postJson, sent, settledFilm } from '../server/shopRoom.ts'
import { expectAccess, LAPTOP, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { dragDose, PAINTED, pixelsChanged, pressDose, settledInks } from './filmPage.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'
import { inkOverPencil, scanPng } from './scans.testing.ts'

const PATIENCE_MS = 120_000

let browser: Browser
let server: RealServer
let pencil = ''
let scan = ''
let broken = ''

beforeAll(async () => {
  ;[browser, server] = await Promise.all([openBrowser(), startOwnYellowroom()])
  await opened(server)
  expect((await postJson(server.url + PATHS.ownShop)).status).toBe(201)
  const bytes = scanPng(inkOverPencil())
  const query = '?resolutionDpi=200'
  pencil = await read({ name: 'Kettle and three pears.png', bytes: await readFile(PENCIL) })
  scan = await read({ name: 'ink over pencil.png', bytes, query })
  broken = await read({ name: 'half a film.png', bytes: bytes.subarray(0, 4000), query })
}, PATIENCE_MS)

afterAll(async () => {
  await browser.close()
  await server.stop()
})

const asks: Asks = (path, init) => fetch(server.url + path, init)

/** Sends a film and waits until it is read, or refused. */
async function read(film: Parameters<typeof sent>[1]): Promise<string> {
  const { id } = await sent(asks, film)
  await settledFilm(asks, id)
  return id
}

async function open(path: string, options: BrowserContextOptions = LAPTOP): Promise<Page> {
  const context = await browser.newContext(options)
  const page = await context.newPage()
  page.setDefaultTimeout(60_000)
  await page.goto(server.url + path)
  return page
}

describe('a pencil drawing', () => {
  let page: Page
  beforeAll(async () => {
    page = await open('/film')
    await page.getByRole('link', { name: /Kettle and three pears/ }).click()
    await page.waitForSelector('.finding')
    await settledInks(page)
  }, PATIENCE_MS)
  afterAll(() => page.context().close())

  test('stands at its true size, with its dose, its findings and its loupe', async () => {
    expect(page.url()).toBe(`${server.url}/film/${pencil}`)
    expect(await page.locator('.film-tools p').textContent()).toContain('210 mm')
    expect((await settledInks(page)).ink).toBeGreaterThan(5000)
    expect(Number(await page.getByRole('slider').getAttribute('aria-valuenow'))).toBeGreaterThan(0)
    expect(await page.locator('.finding').count()).toBe(3)
    expect(await page.locator('.loupe canvas').count()).toBe(1)
    expect(await page.locator('.in-ten').count()).toBe(1)
  })

  test('the dose dragged over the cloth moves the number and the picture', async () => {
    const said = () => page.locator('.film-sentence strong').textContent()
    const before = await said()
    const changed = await pixelsChanged(page, () => dragDose(page, 0.9))
    expect(changed).toBeGreaterThan(200)
    expect(await said()).not.toBe(before)
  })

  test('most light leaves less ink and more doubt, least light more ink than most', async () => {
    await pressDose(page, 'Home')
    const least = await settledInks(page)
    await pressDose(page, 'End')
    const most = await settledInks(page)
    expect(most.ink).toBeLessThan(least.ink)
    expect(most.cut).toBeGreaterThan(least.cut)
  })

  test('as drawn it has neither doubt nor outline, and its sentence says so', async () => {
    await page.getByRole('button', { name: 'as drawn' }).click()
    expect((await settledInks(page)).cut).toBe(0)
    expect(await page.getByRole('img', { name: 'The film as it was drawn.' }).count()).toBe(1)
    await page.getByRole('button', { name: 'what will open' }).click()
    await page.getByRole('button', { name: 'as it will print' }).click({ force: true })
    await expect.poll(() => page.getByText('comes in a later version').count()).toBe(1)
  })

  test('one comes as near as single film pixels by keys, nearer by the wheel, and back', async () => {
    const wide = () => page.locator('.film-tools p').textContent()
    await page.locator('.film-stage').focus()
    await page.keyboard.press('0')
    const whole = await settledInks(page)
    for (let press = 0; press < 12; press += 1) await page.keyboard.press('+')
    expect(await settledInks(page)).not.toEqual(whole)
    // 24 CSS pixels a film pixel of 0.212 mm: a stage of some 800 px shows under 10 mm
    expect(Number.parseFloat((await wide()) ?? '')).toBeLessThan(10)
    await page.keyboard.press('0')
    expect(await settledInks(page)).toEqual(whole)
    await page.locator('.film-stage').hover()
    await page.mouse.wheel(0, -600)
    await expect.poll(wide).not.toContain('210 mm')
    await page.locator('.film-stage').focus()
    await page.keyboard.press('0')
  })

  test('the findings are walked: each moves the loupe, shows another place and says its dose', async () => {
    const more = page.getByRole('button', { name: /^Show/ })
    if ((await more.count()) > 0) await more.click()
    const entries = page.locator('.finding button')
    const seen = new Set<string>()
    for (let at = 0; at < (await entries.count()); at += 1) {
      await entries.nth(at).focus()
      await expect.poll(() => page.locator('.wax-focused').count()).toBe(1)
      const cx = await page.locator('.film-leader circle').getAttribute('cx')
      const cy = await page.locator('.film-leader circle').getAttribute('cy')
      seen.add(`${cx} ${cy}`)
      expect(await entries.nth(at).textContent()).toMatch(/\d/)
    }
    expect(seen.size).toBeGreaterThanOrEqual(3)
    await page.setViewportSize({ width: 1440, height: 900 })
  })
})

describe('ink over pencil, an own scan', () => {
  test('underdrawing is asked about once, kept by the shop, and can be asked about again', async () => {
    const page = await open(`/film/${scan}`)
    await page.waitForSelector('.faint')
    await page.waitForSelector('.in-ten') // the dose is the one of Light from then on
    const before = await page.locator('.finding').first().textContent()
    await page.getByRole('button', { name: 'Yes, they stay shut' }).click()
    await page.waitForSelector('.faint-answered')
    expect(await page.locator('.faint').count()).toBe(0)
    await page.reload()
    await page.waitForSelector('.faint-answered')
    await page.waitForSelector('.in-ten')
    // the faint lines were the weakest marks, and no longer count
    expect(await page.locator('.finding').first().textContent()).not.toBe(before)
    await page.getByRole('button', { name: 'Ask me again' }).click()
    await page.getByRole('button', { name: 'No, they print' }).click()
    await expect.poll(() => page.locator('.finding').first().textContent()).toBe(before)
    await page.context().close()
  })

  test('an answer about a film that is gone meanwhile meets the shop’s own sentence', async () => {
    const bytes = scanPng(inkOverPencil())
    const gone = await read({ name: 'gone.png', bytes, query: '?resolutionDpi=200' })
    const page = await open(`/film/${gone}`)
    await page.waitForSelector('.faint')
    await fetch(server.url + filmPath(gone), { method: 'DELETE' })
    await page.getByRole('button', { name: 'Yes, they stay shut' }).click()
    await expect.poll(() => page.locator('.faint [role=alert]').textContent()).toMatch(/\w+.*\.$/)
    await page.context().close()
  })

  test('the page can be walked by keys to its main act', async () => {
    const page = await open(`/film/${scan}`)
    await page.waitForSelector('.finding')
    await settledInks(page)
    const seen: string[] = []
    for (let press = 0; press < 40; press += 1) {
      await page.keyboard.press('Tab')
      const name = await page.evaluate(
        () =>
          document.activeElement?.getAttribute('aria-label') ??
          document.activeElement?.textContent ??
          '',
      )
      seen.push(name)
      if (name.startsWith('Use ')) break
    }
    const order = ['as drawn', 'The film at true', 'Dose', '1', 'Use ']
    const places = order.map((start) => seen.findIndex((name) => name.startsWith(start)))
    expect(places).not.toContain(-1)
    expect(places).toEqual(places.toSorted((a, b) => a - b))
    await page.keyboard.press('Enter')
    await expect.poll(() => page.getByText('The lid is heavy').isVisible()).toBe(true)
    await page.context().close()
  })

  test('forced colours leave every word to be seen, and the picture is painted in them', async () => {
    const options = { ...LAPTOP, forcedColors: 'active', bypassCSP: true } as const
    const page = await open(`/film/${scan}`, options)
    await page.waitForSelector('.finding')
    expect(await violations(page)).toEqual([])
    await page.context().close()
  })
})

const STATES: readonly Readonly<{
  name: string
  path: () => string
  waitFor: string
  act?: (page: Page) => Promise<unknown>
}>[] = [
  { name: 'a film', path: () => `/film/${pencil}`, waitFor: '.finding' },
  {
    name: 'a film with all findings and the act unfolded',
    path: () => `/film/${scan}`,
    waitFor: '.finding',
    act: async (page) => {
      const more = page.getByRole('button', { name: /^Show/ })
      if ((await more.count()) > 0) await more.click()
      await page.getByRole('button', { name: /^Use/ }).click()
      await page.getByRole('button', { name: 'as it will print' }).click({ force: true })
    },
  },
  { name: 'a film that failed', path: () => `/film/${broken}`, waitFor: '.film-failed' },
  { name: 'no such film', path: () => '/film/none', waitFor: '.standing-refused' },
  { name: 'the films and the upload', path: () => '/film', waitFor: '.films-here' },
]

describe.each(STATES)('$name', ({ path, waitFor, act }) => {
  test('oracle axe: nothing is found on a phone and a laptop, by day and by night; nothing scrolls sideways, and what one presses is 48 px high', async () => {
    const page = await open(path(), { ...PHONE, bypassCSP: true, reducedMotion: 'reduce' })
    await page.waitForSelector(waitFor)
    await act?.(page)
    await expectAccess(page)
    await page.context().close()
  })
})

test('a phone is offered a file to choose, for nothing is dropped on it', async () => {
  for (const [size, drops] of [
    [PHONE, false],
    [LAPTOP, true],
  ] as const) {
    const page = await open('/film', size)
    await page.waitForSelector('.drop')
    expect(await page.getByText('Choose a file').isVisible()).toBe(true)
    expect(await page.getByText('Drop the file here').isVisible()).toBe(drops)
    await page.context().close()
  }
})

test('the picture on a phone is painted as well', async () => {
  const page = await open(`/film/${scan}`, PHONE)
  await page.waitForSelector(PAINTED)
  expect((await settledInks(page)).ink).toBeGreaterThan(500)
  await page.context().close()
})
