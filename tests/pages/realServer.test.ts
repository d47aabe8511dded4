import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom, startYellowroom } from './realServer.testing.ts'

/** A first start on two slow cores draws films and fills a database. */
const PATIENCE_MS = 180_000

let browser: Browser

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

async function open(url: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  page.setDefaultTimeout(PATIENCE_MS)
  await page.goto(url)
  return page
}

const number = (page: Page): Promise<number> =>
  page.locator('.number-line strong').textContent().then(Number)

/** Waits until the number in the frame is another one. */
async function moved(page: Page, before: number): Promise<number> {
  await page.waitForFunction(
    (old) => Number(document.querySelector('.number-line strong')?.textContent) !== old,
    before,
  )
  return number(page)
}

describe('the demo shop of the real server', () => {
  let server: RealServer

  beforeAll(async () => {
    server = await startYellowroom()
  }, PATIENCE_MS)

  afterAll(() => server.stop())

  test(
    'is entered from the first page, gives a dose with its range, and says that it is a demo',
    async () => {
      const page = await open(server.url)
      const refused: string[] = []
      page.on('console', (line) => {
        if (/Content Security Policy/.test(line.text())) refused.push(line.text())
      })
      await page.getByRole('button', { name: 'Look round the demo shop first' }).click()
      await page.getByRole('heading', { name: 'How much light?' }).waitFor()
      expect(await number(page)).toBeGreaterThan(0)
      expect(await page.locator('.number-range').textContent()).toMatch(/\d+ to \d+/)
      expect(await page.getByText(/^DEMO SHOP: .+, invented$/).isVisible()).toBe(true)
      await page.getByRole('button', { name: 'Why?' }).click()
      expect(await page.locator('.reasons li').count()).toBeGreaterThan(0)
      expect(refused).toEqual([])
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'gives a denser medium more light, and a screen that cannot be used is not to be chosen',
    async () => {
      const page = await open(server.url)
      await page.waitForSelector('.number-frame')
      const pencil = await number(page)
      await page.getByLabel('Medium or film').selectOption({ label: 'cut masking film' })
      expect(await moved(page, pencil)).toBeGreaterThan(pencil)
      const blocked = await page.getByLabel('Screen').locator('option[disabled]').allTextContents()
      expect(blocked.some((words) => /torn/.test(words))).toBe(true)
      await page.close()
    },
    PATIENCE_MS,
  )
})

describe('an own shop on the real server', () => {
  let server: RealServer

  beforeAll(async () => {
    server = await startOwnYellowroom()
  }, PATIENCE_MS)

  afterAll(() => server.stop())

  test(
    'is set up by the five blanks, each of which moves the first dose or its range',
    async () => {
      const page = await open(server.url)
      await page.waitForSelector('.number-frame')
      const open0 = await number(page)
      await page.getByLabel('Colour of the fabric').selectOption('dyed')
      const dyed = await moved(page, open0)
      expect(dyed).toBeGreaterThan(open0) // a dyed fabric takes more light
      await page.getByLabel('What the lamp counts').selectOption('light units')
      await page.getByLabel('Usual fabric').selectOption('90-48')
      await page.getByLabel('How it is coated').selectOption('once on each side')
      await page.getByLabel('Kind of emulsion').selectOption('ready-mixed')
      await page.getByLabel('Medium used last time').selectOption('soft pencil')
      await page.getByLabel('Dose of last time').fill('20')
      const before = await number(page)
      await page.getByLabel('How it came out').selectOption('washed off')
      expect(await moved(page, before)).toBeGreaterThan(before) // it washed off: more light
      await page.getByLabel('Name of the shop').fill('Room for trying out')
      await page.getByRole('button', { name: 'Open the shop' }).click()
      await page.getByRole('heading', { name: 'How much light?' }).waitFor()
      await page.waitForSelector('.number-frame')
      expect(await page.getByText('Room for trying out').isVisible()).toBe(true)
      expect(await page.getByText(/DEMO SHOP/).count()).toBe(0)
      await page.reload()
      await page.waitForSelector('.number-frame')
      await page.close()
    },
    PATIENCE_MS,
  )
})
