import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { newLampStory } from '../../src/demo/newLamp.ts'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'

/** A first start on two slow cores draws films, fills a database and weighs months of readings. */
const PATIENCE_MS = 240_000

const STORY = newLampStory({ wedgeCounts: 60, bands: [] })
const YESTERDAY = new Intl.DateTimeFormat('sv-SE').format(Date.now() - 24 * 3600_000)

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

/** The dose of a medium as it stands on the page. */
async function doseOf(page: Page, medium: string): Promise<number> {
  const row = page.locator('.belief', { has: page.getByRole('heading', { name: medium }) })
  return Number(await row.locator('.belief-value').textContent())
}

/** A test that one can make or tell: a button where it is worth most now, else a link. */
function offered(page: Page, words: string): Locator {
  return page.locator('.next-test').getByText(words, { exact: true })
}

/** How many screens in ten come out, as Light says it. */
async function screensInTen(page: Page): Promise<readonly number[]> {
  const says = await page.locator('.in-ten strong').textContent()
  return [...(says ?? '').matchAll(/\d+/g)].map(([digits]) => Number(digits))
}

describe('the demo shop of the real server', () => {
  let server: RealServer

  beforeAll(async () => {
    server = await startOwnYellowroom()
    const page = await open(server.url)
    await page.getByRole('button', { name: 'Look round the demo shop first' }).click()
    // the first page has a number of its own: the demo shop is there when its tape is
    await page.getByRole('heading', { name: 'How much light?' }).waitFor()
    await page.close()
  }, PATIENCE_MS)

  afterAll(() => server.stop())

  test(
    'a wedge that held little moves the dose up, and struck out it moves back, kept and marked',
    async () => {
      const page = await open(`${server.url}/tests`)
      await page.waitForSelector('.belief')
      const before = await doseOf(page, 'soft pencil')
      await offered(page, 'I read a wedge').click()
      await page.getByLabel('Dose as it was set').fill('60')
      await page.getByRole('button', { name: /^Step 2:/ }).click()
      await page.getByRole('button', { name: /^Step 4:/ }).click()
      await page.getByRole('button', { name: 'Take it down' }).click()
      await page.getByRole('heading', { name: 'Taken down' }).waitFor()
      expect(await page.locator('.taken-says').textContent()).toContain('step 2 solid')
      expect(await page.locator('.taken-moved li').count()).toBeGreaterThan(0)
      await page.getByRole('button', { name: 'What we believe' }).click()
      await page.waitForSelector('.belief')
      const moved = await doseOf(page, 'soft pencil')
      expect(moved).toBeGreaterThan(before)

      await page.getByRole('link', { name: /soft pencil: what it rests on/ }).click()
      const line = page.locator('.reading-line', { hasText: 'step 2 solid' }).first()
      await line.getByRole('button', { name: /^Strike it out/ }).click()
      await line.getByLabel('Why does it not count?').fill('read for trying out')
      await line.getByRole('button', { name: 'Strike it out', exact: true }).click()
      await page.getByText('read for trying out').waitFor()
      expect(await line.locator('s').count()).toBe(1)
      await page.getByRole('link', { name: 'What we believe' }).click()
      await page.waitForSelector('.belief')
      expect(await doseOf(page, 'soft pencil')).toBe(before)
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'a strip is planned, its film is a PDF and a one-bit TIFF, and its doses wait where it is told',
    async () => {
      const page = await open(`${server.url}/tests`)
      await offered(page, 'Make a test strip').click()
      await page.waitForSelector('.strip-step')
      const given = await page.locator('.strip-give strong').allTextContents()
      const whole = given.reduce((sum, text) => sum + Number(text), 0)
      expect(await page.locator('.strip-whole').textContent()).toContain(`in all it gave ${whole} `)
      expect(await page.getByText('Do not look at the lamp.').count()).toBeGreaterThan(0)
      for (const [name, begins] of [
        ['Fetch the test film', '%PDF-'],
        ['as 1-bit TIFF, for a film printer', 'II'],
      ] as const) {
        const path = await page.getByRole('link', { name }).getAttribute('href')
        const response = await page.request.get(`${server.url}${path}`)
        expect([name, response.status()]).toEqual([name, 200])
        expect((await response.body()).subarray(0, begins.length).toString()).toBe(begins)
      }
      await page.getByRole('link', { name: 'Then tell how it came out' }).click()
      await page.waitForSelector('.strip-band')
      expect(await page.locator('.strip-band').count()).toBe(given.length)
      const first = Number(await page.getByLabel('Dose of band 1', { exact: true }).inputValue())
      expect(first).toBeGreaterThan(0)
      expect(first).toBe(Number(given.at(-1))) // the least dose is what is given last
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'five pictures of how it came out are drawn, no two alike',
    async () => {
      const page = await open(`${server.url}/tests/read?what=outcome`)
      await page.waitForFunction(
        () =>
          [...document.querySelectorAll<HTMLImageElement>('.grade img')].filter(
            ({ complete, naturalWidth }) => complete && naturalWidth > 0,
          ).length === 5,
      )
      const sources = await page
        .locator('.grade img')
        .evaluateAll((images) => images.map((image) => image.getAttribute('src') ?? ''))
      const bodies = await Promise.all(
        sources.map(async (src) =>
          (await page.request.get(`${server.url}${src}`))
            .body()
            .then((body) => body.toString('hex')),
        ),
      )
      expect(new Set(bodies).size).toBe(5)
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'the wall chart comes on A3 as PDF, and notes with a slip name its line',
    async () => {
      const page = await open(`${server.url}/tests`)
      await page.getByLabel('Paper of the wall chart').selectOption('a3')
      const path = await page.getByRole('link', { name: 'Fetch it as PDF' }).getAttribute('href')
      const response = await page.request.get(`${server.url}${path}`)
      expect(response.headers()['content-type']).toBe('application/pdf')
      await page.getByRole('link', { name: 'Read old notes in' }).click()
      await page
        .getByLabel('The notes')
        .fill(
          'date,medium,dose,outcome\n2025-11-03,soft pencil,42,good\n2025-11-05,soft pencil,4o,good',
        )
      await page.getByRole('button', { name: 'Look through them' }).click()
      await page.getByText('1 of 2 lines can be taken.').waitFor()
      expect(await page.locator('.notes-look li').textContent()).toMatch(/^Line 3:.*4o/)
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'a timing that is told becomes the lamp’s line: hot, cold, and the time from one to the other',
    async () => {
      const [hot, cold, tauSec] = [0.9, 0.3, 25]
      const page = await open(`${server.url}/tests/lamp`)
      await page.waitForSelector('.plot-curve')
      const before = await page.locator('.plot-curve').getAttribute('d')
      for (const [at, sec] of [15, 30, 45, 60, 120, 180].entries()) {
        const count = hot * sec - (hot - cold) * tauSec * (1 - Math.exp(-sec / tauSec))
        await page.getByLabel(`Clock, pair ${at + 1}`).fill(String(sec))
        await page.getByLabel(`Counter, pair ${at + 1}`).fill(count.toFixed(1))
      }
      await page.getByRole('button', { name: 'Take it down' }).click()
      await page.getByText('The timing is taken down.').waitFor()
      await page.waitForFunction(
        (old) => document.querySelector('.plot-curve')?.getAttribute('d') !== old,
        before,
      )
      const says = (await page.getByText('counts a second when cold').textContent()) ?? ''
      const [coldSaid, hotSaid, tauSaid] = [...says.matchAll(/[\d.]+/g)].map(([text]) =>
        Number(text),
      )
      expect(hotSaid).toBeCloseTo(hot, 1)
      expect(coldSaid).toBeCloseTo(cold, 1)
      expect(Math.abs((tauSaid ?? 0) - tauSec)).toBeLessThan(4)
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'wedges laid on the glass become a map that is darkest where they held least',
    async () => {
      const page = await open(`${server.url}/tests/evenness`)
      await page.waitForSelector('.glass')
      await page.getByLabel('Dose as it was set').fill('60')
      for (const [at, [solid, clear]] of [
        ['6', '8'],
        ['4', '6'],
        ['6', '8'],
        ['7', '9'],
        ['6', '8'],
      ].entries()) {
        await page.getByLabel(`Place ${at + 1}, last solid step`).fill(solid ?? '')
        await page.getByLabel(`Place ${at + 1}, first clear step`).fill(clear ?? '')
      }
      await page.getByRole('button', { name: 'Take it down' }).click()
      await page.getByText('The wedges are taken down.').waitFor()
      await page.waitForSelector('.even-map')
      await page.getByRole('button', { name: 'As a table' }).click()
      // the map before stands until the new one has come
      const frontRightIsDarkest = async (): Promise<boolean> => {
        const rows = await page.locator('.as-table tbody tr').all()
        const shares = async (at: number): Promise<readonly number[]> =>
          (await rows.at(at)?.locator('td').allTextContents())?.map(Number) ?? []
        const [back, front] = [await shares(0), await shares(-1)]
        const darkest = front.at(-1) ?? Number.POSITIVE_INFINITY
        return [front.at(0), back.at(0), back.at(-1)].every((other) => (other ?? 0) > darkest)
      }
      await expect.poll(frontRightIsDarkest, { timeout: 30_000 }).toBe(true)
      await page.close()
    },
    PATIENCE_MS,
  )

  test(
    'the demo shop fits a new lamp: doubt at once, a wedge, and what changed is said and drawn',
    async () => {
      const page = await open(`${server.url}/tests`)
      await page.waitForSelector('.belief')
      const before = await doseOf(page, STORY.medium)
      await page.getByRole('link', { name: 'The lamp' }).click()
      await page.getByRole('button', { name: 'A new lamp was fitted' }).click()
      expect(await page.getByText('mains off').count()).toBe(1)
      await page.getByRole('button', { name: 'It was fitted' }).click()
      await page.getByText('The new lamp is taken down.').waitFor()

      await page.goto(`${server.url}/?medium=${STORY.medium}`)
      await page.getByText('The lamp is new.').waitFor()
      expect(await page.locator('.changed').textContent()).toContain('a wedge on the margin')
      const [doubted] = await screensInTen(page)
      expect(doubted).toBeLessThan(8)

      await page.goto(`${server.url}/tests`)
      await page.locator('.changed-words', { hasText: 'The lamp is new.' }).waitFor()
      expect(await page.locator('.next-test').textContent()).toContain('A wedge on the margin')
      const drawn = await page.locator('.plot-band').count()
      await offered(page, 'I read a wedge').click()
      const { doseCounts, lastSolidStep, firstClearStep } = STORY.wedge
      await page.getByLabel('Dose as it was set').fill(String(doseCounts))
      for (const step of [lastSolidStep, firstClearStep]) {
        await page.getByRole('button', { name: new RegExp(`^Step ${step}:`) }).click()
      }
      await page.getByRole('button', { name: 'Take it down' }).click()
      await page.getByRole('heading', { name: 'Taken down' }).waitFor()
      await page.getByRole('button', { name: 'What we believe' }).click()
      const changed = page.locator('.changed-words', { hasText: /The new lamp/ })
      await changed.waitFor()
      expect(await changed.textContent()).toMatch(/less light\..*seen on one wedge/)
      expect(await doseOf(page, STORY.medium)).toBeLessThan(0.9 * before)
      // the chart breaks off at the lamp, and what is believed goes on below
      expect(await page.locator('.plot-break', { hasText: 'new lamp' }).count()).toBe(1)
      expect(drawn).toBeGreaterThan(1)
      const bands = await page
        .locator('g > .plot-band')
        .evaluateAll((paths) =>
          paths
            .map((path) => (path as SVGPathElement).getBBox())
            .map(({ y, height }) => y + height / 2),
        )
      expect(bands.at(-1)).toBeGreaterThan(bands.at(-2) ?? Number.POSITIVE_INFINITY)

      await page.getByLabel('See it as it stood on').fill(YESTERDAY)
      await page.getByText(/^As it stood on/).waitFor()
      await expect.poll(() => doseOf(page, STORY.medium), { timeout: 30_000 }).toBe(before)
      await page.goto(`${server.url}/?medium=${STORY.medium}`)
      await page.getByText('The new lamp').waitFor()
      expect((await screensInTen(page))[0]).toBeGreaterThan(doubted ?? 10)
      await page.close()
    },
    PATIENCE_MS,
  )
})
