import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { opened } from '../server/shopRoom.ts'
import { beyondPx, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000
const POSTER = fileURLToPath(new URL('../../docs/example/poster.svg', import.meta.url))

let browser: Browser
let server: RealServer

beforeAll(async () => {
  ;[browser, server] = await Promise.all([openBrowser(), startOwnYellowroom()])
  await opened(server)
  const body = '{"fabric":"90-48","colour":"white"}'
  const headers = { 'content-type': 'application/json' }
  await fetch(`${server.url}${PATHS.ownShop}`, { method: 'POST', headers, body })
}, PATIENCE_MS)

afterAll(async () => {
  await browser.close()
  await server.stop()
})

/** What a state of a page must keep, whatever it shows. */
async function holds(page: Page, state: string): Promise<void> {
  expect([state, await violations(page)]).toEqual([state, []])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
  const low = (await lowTargets(page)).filter((target) => !target.includes('type="file"'))
  expect([state, low]).toEqual([state, []])
}

test(
  'artwork is brought, its films are rolled back, changed and held by keys, made, and forecast',
  async () => {
    const context = await browser.newContext({ ...PHONE, colorScheme: 'dark', bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    await page.goto(`${server.url}/films`)
    await page.getByText('What is brought stands here').waitFor()
    await page.locator('.drop-choose input').setInputFiles(POSTER)
    await page.waitForURL(/\/films\/[^/]+$/)
    await page.getByText('One film, one sheet.').waitFor()

    const film = page.getByRole('slider', { name: 'Film of black' })
    await film.press('Home')
    expect(await film.getAttribute('aria-valuenow')).toBe('0')
    await page.getByRole('button', { name: 'Lay all films down' }).press('Enter')
    expect(await film.getAttribute('aria-valuenow')).toBe('100')
    await page.getByRole('button', { name: /^Loupe on black/ }).press('Shift+ArrowRight')
    await page.getByRole('button', { name: /^Loupe on black, 42 mm from the left/ }).waitFor()

    // threads stand 90 a cm: dots of 45 lines, nearly in step, beat with them, and a turn is offered
    await page.getByLabel('Lines per cm').fill('45')
    await page.getByRole('button', { name: 'Change black' }).press('Enter')
    await page.getByLabel('Angle of its dots in degrees').fill('3')
    await page.getByRole('heading', { name: 'Moiré: strong.' }).waitFor()
    await page.getByRole('button', { name: /^Change edges, white/ }).press('Enter')
    await page.getByLabel('Sheets that films are printed on').selectOption('A3 sheets')
    await page.getByRole('button', { name: 'Which inks?' }).press('Enter')
    await page.getByText(/own flat colours/).waitFor()
    await holds(page, 'moiré, and all that is folded away')
    await page.getByRole('button', { name: 'Which inks?' }).press('Enter')
    await page.getByRole('button', { name: /^Turn black to/ }).press('Enter')
    await page.getByRole('heading', { name: /Moiré: (none to be seen|faint)[.]/ }).waitFor()
    await page.getByLabel('Lines per cm').fill('18')
    await page.getByLabel('Pixels per inch of the film').fill('9')
    await page.getByText('resolutionDpi').first().waitFor()
    await page.getByLabel('Pixels per inch of the film').fill('200')
    await page.getByRole('alert').waitFor({ state: 'detached' })

    await page.getByRole('button', { name: /^See the print at true size/ }).press('Enter')
    const wide = async (): Promise<number> => {
      const box = await page.locator('.true-pan canvas').boundingBox()
      return box?.width ?? 0
    }
    // 90 mm at a 96th of an inch a pixel, and then as somebody measured it
    expect(Math.round(await wide())).toBe(Math.round((90 * 96) / 25.4))
    await page.getByRole('button', { name: 'Measure this screen' }).press('Enter')
    await page.getByRole('slider', { name: 'How large the frame is' }).fill('5')
    await page.getByRole('button', { name: 'It fits: keep it on this device' }).press('Enter')
    await page.getByText('This screen was measured with a card').waitFor()
    expect(Math.round(await wide())).toBe(450)
    await holds(page, 'the print at true size')

    await page.getByRole('button', { name: 'Make the films' }).press('Enter')
    await page.getByRole('heading', { name: 'Made' }).waitFor()
    await page.getByRole('link', { name: /^The proof as a page at true size/ }).waitFor()
    await holds(page, 'films made')
    const pdf = await page.getByRole('link', { name: 'PDF', exact: true }).getAttribute('href')
    const answer = await page.request.get(`${server.url}${pdf}`)
    expect([
      answer.headers()['content-type'],
      (await answer.body()).subarray(0, 5).toString(),
    ]).toEqual(['application/pdf', '%PDF-'])
    await page.getByRole('button', { name: /^Will it hold/ }).press('Enter')
    await page.waitForURL(/\/film\/[^/]+$/)
    await page.getByRole('heading', { name: 'Will it hold?' }).waitFor()
    await context.close()
  },
  PATIENCE_MS,
)
