import { type ServerType, serve } from '@hono/node-server'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type PlaceShop, placeShop } from '../server/placeShop.ts'
import { beyondPx, LAPTOP, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'

const PATIENCE_MS = 120_000

let browser: Browser
let shop: PlaceShop
let server: ServerType
let url = ''

beforeAll(async () => {
  ;[browser, shop] = await Promise.all([openBrowser(), placeShop()])
  url = await new Promise((ready) => {
    server = serve({ fetch: shop.app.fetch, port: 0, hostname: '127.0.0.1' }, ({ port }) =>
      ready(`http://127.0.0.1:${port}`),
    )
  })
}, PATIENCE_MS)

afterAll(async () => {
  await browser.close()
  server.close()
  await shop.close()
})

async function open(options: BrowserContextOptions): Promise<Page> {
  const context = await browser.newContext({ ...options, bypassCSP: true })
  const page = await context.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  // what is on the film is no matter here
  await page.route('**/forecast*', (route) => route.abort())
  await page.goto(`${url}/place?films=${shop.ids['sheet']}&screen=14`)
  await page.getByText('Where to lay it').first().waitFor()
  return page
}

async function holds(page: Page, state: string): Promise<void> {
  expect([state, await violations(page)]).toEqual([state, []])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
  expect([state, await lowTargets(page)]).toEqual([state, []])
}

test(
  'a film is moved by keys, mouse and figures, the rules answer at once, and the way there is told',
  async () => {
    const page = await open(LAPTOP)
    const film = page.getByRole('button', { name: /^sheet: / })
    const says = async (): Promise<readonly number[]> =>
      ((await film.getAttribute('aria-label')) ?? '').match(/\d+/g)?.map(Number) ?? []
    // 150 are wanted, and (500 - 210) / 2 = 145 are there; 210 + 300 across would do, 7 : 5 of it down.
    await page.getByText('At best the clearance to the frame is 5 mm short.').waitFor()
    await page.getByText('A frame of 510 mm by 714 mm inside would do').waitFor()
    await holds(page, 'a film that does not fit')
    await page.getByRole('button', { name: 'Clearances' }).click()
    await page.getByLabel('To the frame').fill('140')
    await page.getByText('It fits: every rule is kept.').waitFor()
    expect(await says()).toEqual([145, 202]) // (700 - 297) / 2 = 201.5

    await film.focus()
    await page.keyboard.press('ArrowRight')
    await page.keyboard.press('Shift+ArrowRight')
    await page.keyboard.press('Shift+ArrowUp')
    expect(await says()).toEqual([156, 192])
    // 500 - 156 - 210 = 134 are left at the right, 6 less than wanted.
    await page.getByText('134 mm, 6 mm short').waitFor()
    await page.getByText('The best place is from here:').waitFor()

    const box = await film.boundingBox()
    const perMm = (box?.width ?? 0) / 210
    const [x, y] = [(box?.x ?? 0) + 40, (box?.y ?? 0) + 40]
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x - 40 * perMm, y + 20 * perMm, { steps: 4 })
    await page.mouse.up()
    const [left = 0, back = 0] = await says()
    expect(Math.abs(left - 116)).toBeLessThanOrEqual(1)
    expect(Math.abs(back - 212)).toBeLessThanOrEqual(1)

    await page.getByRole('button', { name: 'Lay it best' }).click()
    await page.getByRole('button', { name: 'It lies elsewhere' }).click()
    await page.getByRole('textbox', { name: 'From the left' }).fill('183')
    await page.getByRole('textbox', { name: 'From the back' }).fill('213.5')
    await page.getByText('38 mm to the left').waitFor()
    await page.getByText('12 mm away from you').waitFor()
    await holds(page, 'a film that lies elsewhere')
    await page.getByRole('button', { name: 'It lies there now' }).click()
    await page.getByText('So it was laid on 2026-11-28.').waitFor()
    await page.context().close()

    const phone = await open({ ...PHONE, colorScheme: 'dark' })
    await phone.getByText('So it was laid on').waitFor()
    await phone.getByRole('button', { name: 'Something on the glass' }).click()
    await phone.getByRole('button', { name: 'Several screens on the glass' }).click()
    await phone.getByLabel('Screen 2 on the glass').selectOption(shop.ids['15'] ?? '')
    await phone.getByText('They lie side by side on the glass.').waitFor()
    await holds(phone, 'several screens, on a phone at night')
    // a screen is moved on the glass by keys and by a drag, and the rules answer at once
    const second = phone.getByRole('button', { name: /^Screen 15: / })
    await second.focus()
    // (1200 - 2 x 580) / 3 = 13.3 lie between them: 30 to the left are 16.3 too many, told upwards
    for (let at = 0; at < 3; at++) await phone.keyboard.press('Shift+ArrowLeft')
    await phone.getByText('Two lie 17 mm on each other.').waitFor()
    for (let at = 0; at < 3; at++) await phone.keyboard.press('Shift+ArrowRight')
    await phone.getByText('They keep clear of each other, and none hangs over.').waitFor()
    const lies = await second.boundingBox()
    const glassPerMm = (lies?.width ?? 0) / 580
    const [fromX, fromY] = [(lies?.x ?? 0) + 30, (lies?.y ?? 0) + 30]
    await phone.mouse.move(fromX, fromY)
    await phone.mouse.down()
    await phone.mouse.move(fromX, fromY - 100 * glassPerMm, { steps: 3 })
    await phone.mouse.up()
    await phone.getByText(/^One hangs \d+ mm over the edge of the glass\.$/).waitFor()
    await phone.getByRole('button', { name: 'Lay it best' }).last().click()
    await phone.getByText('They lie side by side on the glass.').waitFor()
    await phone.context().close()
  },
  PATIENCE_MS,
)

/** One finger laid down, moved in steps and lifted, as the browser's own input has it. */
async function fingerDrag(
  page: Page,
  from: Readonly<{ x: number; y: number }>,
  by: Readonly<{ x: number; y: number }>,
): Promise<void> {
  const device = await page.context().newCDPSession(page)
  const touch = (type: 'touchStart' | 'touchMove', share: number) =>
    device.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: [{ x: from.x + by.x * share, y: from.y + by.y * share, id: 1 }],
    })
  await touch('touchStart', 0)
  for (const share of [0.25, 0.5, 0.75, 1]) await touch('touchMove', share)
  await device.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
}

test(
  'on a phone a finger drags a film, and the page stays where it is; a screen on the glass likewise',
  async () => {
    const page = await open({ ...PHONE, hasTouch: true, isMobile: true })
    const film = page.getByRole('button', { name: /^sheet: / })
    const lies = async (piece = film): Promise<readonly number[]> =>
      ((await piece.getAttribute('aria-label')) ?? '').match(/\d+(?= mm)/g)?.map(Number) ?? []
    await film.scrollIntoViewIfNeeded()
    const before = await lies()
    const box = (await film.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 }
    const perMm = box.width / 210
    const scrolled = await page.evaluate(() => scrollY)
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 }
    await fingerDrag(page, middle, { x: -60 * perMm, y: 90 * perMm })
    const [left = 0, back = 0] = await lies()
    // a finger lies on whole pixels, and what is read is rounded to whole mm
    const within = 1 + 1 / perMm
    expect(Math.abs(left - ((before[0] ?? 0) - 60))).toBeLessThanOrEqual(within)
    expect(Math.abs(back - ((before[1] ?? 0) + 90))).toBeLessThanOrEqual(within)
    expect(await page.evaluate(() => scrollY)).toBe(scrolled)
    await page.getByText(/As it lies here it breaks a rule/).waitFor()
    // the wood beside the film is no film: there a finger moves the page
    expect(await film.evaluate((piece) => getComputedStyle(piece).touchAction)).toBe('none')
    const still = await lies()
    await fingerDrag(page, { x: 195, y: 40 }, { x: 0, y: 30 })
    expect(await lies()).toEqual(still)

    await page.getByRole('button', { name: 'Several screens on the glass' }).click()
    await page.getByLabel('Screen 2 on the glass').selectOption(shop.ids['15'] ?? '')
    await page.getByText('They lie side by side on the glass.').waitFor()
    const second = page.getByRole('button', { name: /^Screen 15: / })
    await second.scrollIntoViewIfNeeded()
    const glass = (await second.boundingBox()) ?? box
    const at = { x: glass.x + glass.width / 2, y: glass.y + glass.height / 2 }
    await fingerDrag(page, at, { x: 0, y: (-100 * glass.width) / 580 })
    await page.getByText(/^One hangs \d+ mm over the edge of the glass\.$/).waitFor()
    await page.context().close()
  },
  PATIENCE_MS,
)

test(
  'a film is chosen and no screen is the usual one: the screens are offered',
  async () => {
    const page = await open(PHONE)
    // as a shop answers whose screens are all exposed
    await page.route('**/api/place?*', async (route) => {
      if (route.request().url().includes('screen=')) return route.continue()
      const place = (await (await route.fetch()).json()) as object
      return route.fulfill({ json: { ...place, screen: null, best: null, onGlass: null } })
    })
    await page.goto(`${url}/place?films=${shop.ids['sheet']}`)
    await page.getByRole('heading', { name: 'On which screen?' }).waitFor()
    await holds(page, 'a film and no screen')
    await page.getByRole('link', { name: /^Screen 15/ }).click()
    await page.getByRole('button', { name: /^sheet: / }).waitFor()
    await page.context().close()
  },
  PATIENCE_MS,
)

test(
  'before a film is chosen the page offers those that wait, and screens as they were laid last',
  async () => {
    for (const device of [LAPTOP, PHONE]) {
      const page = await open(device)
      await page.goto(`${url}/place`)
      await page.getByRole('heading', { name: 'Films that wait for a place' }).waitFor()
      await holds(page, 'no film yet')
      await page.getByRole('link', { name: 'sheet', exact: true }).click()
      await page.getByRole('button', { name: /^sheet: / }).waitFor()
      await page.goBack()
      await page.getByRole('link', { name: /^Screen 14 ?sheet ?So it was laid on/ }).click()
      await page.getByText('So it was laid on').waitFor()
      expect(new URL(page.url()).searchParams.get('screen')).toBe(shop.ids['14'])
      await page.context().close()
    }
  },
  PATIENCE_MS,
)
