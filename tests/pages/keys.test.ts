import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { openBrowser } from './browser.testing.ts'
import { CALM, type Fixture, type FixtureState, serveFixture } from './fixtureApi.testing.ts'
import { tabbed } from './keys.testing.ts'

let browser: Browser
let fixture: Fixture

beforeAll(async () => {
  fixture = await serveFixture()
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await fixture.stop()
})

async function open(path: string, set: Partial<FixtureState> = {}): Promise<Page> {
  Object.assign(fixture.state, CALM, set)
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  await page.goto(fixture.url + path)
  return page
}

test('Light can be walked by keys, in the order one reads it, to its main act', async () => {
  const page = await open('/')
  await page.waitForSelector('.number-frame')
  const steps = await tabbed(page, 16)
  const names = steps.map(({ name }) => name)
  const order = [
    'Skip to the page',
    'Light',
    'Medium or film',
    'Base',
    'Screen',
    'Lamp',
    'Why?',
    'Take it to the bench',
  ]
  const places = order.map((name) => names.indexOf(name))
  expect(places).toEqual(places.toSorted((a, b) => a - b))
  expect(places.every((place) => place >= 0)).toBe(true)
  expect(steps.filter(({ ring }) => !ring)).toEqual([])
  await page.getByRole('link', { name: 'Take it to the bench' }).focus()
  await page.keyboard.press('Enter')
  await page.waitForURL((url) => url.pathname === '/bench')
  await page.close()
})

test('a door names its page and hands the keys on to it', async () => {
  const page = await open('/')
  await page.waitForSelector('.number-frame')
  expect(await page.title()).toBe('How much light? · Yellowroom')
  await page.getByRole('link', { name: 'Day', exact: true }).press('Enter')
  expect(await page.title()).toBe('Who is next? · Yellowroom')
  await page.waitForSelector('.day-picture')
  const [first] = await tabbed(page, 1)
  expect(first?.name).toBe('Machines against the clock')
  await page.goBack()
  await page.waitForSelector('.number-frame')
  await page.close()
})

test('a blank changes by keys, the answer with it, and the address keeps the question', async () => {
  const page = await open('/')
  await page.waitForSelector('.number-frame')
  const before = await page.locator('.number-line strong').textContent()
  await page.getByLabel('Medium or film').selectOption({ label: 'cut masking film' })
  await page.waitForFunction(
    (old) => document.querySelector('.number-line strong')?.textContent !== old,
    before,
  )
  expect(new URL(page.url()).searchParams.get('medium')).toBe('cut')
  await page.reload()
  await page.waitForSelector('.number-frame')
  expect(await page.locator('.blank-word').first().textContent()).toContain('cut masking film')
  await page.close()
})

test('the first dose moves with a blank, and a shop opens with what was entered', async () => {
  const page = await open('/', { shop: 'none' })
  await page.waitForSelector('.number-frame')
  const before = await page.locator('.number-line strong').textContent()
  await page.getByLabel('How it is coated').selectOption('more')
  await page.waitForFunction(
    (old) => document.querySelector('.number-line strong')?.textContent !== old,
    before,
  )
  fixture.state.mood = 'refuses'
  await page.getByRole('button', { name: 'Open the shop' }).click()
  await page.getByText('Choose another one.').first().waitFor()
  expect(await page.getByLabel('How it is coated').inputValue()).toBe('more')
  fixture.state.mood = 'answers'
  await page.getByRole('button', { name: 'Open the shop' }).click()
  await page.getByRole('heading', { name: 'How much light?' }).waitFor()
  await page.close()
})

test('a door pressed while the demo shop is made opens on its own page once it is there', async () => {
  const page = await open('/', { shop: 'none' })
  let made = (): void => undefined
  const whenMade = new Promise<void>((resolve) => {
    made = resolve
  })
  await page.route(`**${PATHS.demoShop}`, async (route) => {
    await whenMade
    await route.continue()
  })
  await page.getByRole('button', { name: 'Look round the demo shop first' }).click()
  await page.getByRole('link', { name: 'Tests', exact: true }).click()
  await page.getByText('Tests opens as soon as there is a shop.').waitFor()
  made()
  await page.getByRole('heading', { name: 'What we believe' }).waitFor()
  expect(new URL(page.url()).pathname).toBe('/tests')
  await page.close()
})

test('somebody is signed in: the head stands in one line from 1024 px, and nothing in it breaks', async () => {
  const page = await open('/tests', { shop: 'demo' })
  await page.route(`**${PATHS.me}`, async (route) => {
    const reply = await route.fetch()
    const me = (await reply.json()) as object
    const person = { id: 'demo', name: 'Bartholomew Ashgrove' }
    await route.fulfill({ json: { ...me, person } })
  })
  for (const width of [1024, 1180, 1440]) {
    await page.setViewportSize({ width, height: 768 })
    await page.reload()
    await page.getByRole('link', { name: 'Bartholomew Ashgrove' }).waitFor()
    const heights = await page
      .locator('.head .switch')
      .evaluateAll((all) => all.map((each) => each.getBoundingClientRect().height))
    expect([width, Math.max(...heights) <= 48]).toEqual([width, true])
    const head = await page.locator('.head').boundingBox()
    expect([width, (head?.height ?? 99) <= 62]).toEqual([width, true])
    expect([width, await page.evaluate(() => document.body.scrollWidth)]).toEqual([width, width])
  }
  await page.close()
})

test('the demo shop says so on every page, and on paper', async () => {
  const page = await open('/', { shop: 'none' })
  await page.getByRole('button', { name: 'Look round the demo shop first' }).click()
  for (const door of ['Light', 'Tickets', 'Day', 'Tests', 'Shop']) {
    await page.getByRole('link', { name: door, exact: true }).click()
    expect(await page.getByText('DEMO SHOP: Quillfield Print Room, invented').isVisible()).toBe(
      true,
    )
  }
  await page.emulateMedia({ media: 'print' })
  expect(await page.getByText('DEMO SHOP: Quillfield Print Room, invented').isVisible()).toBe(true)
  expect(await page.locator('.printed').isVisible()).toBe(true)
  await page.close()
})

test('when the connection goes, the answer stays with its time, and comes back by itself', async () => {
  const page = await open('/')
  await page.waitForSelector('.number-frame')
  await page.context().setOffline(true)
  await page.getByLabel('Screen').selectOption('s6')
  await page.getByText(/^As of \d\d:\d\d, no connection\.$/).waitFor()
  expect(await page.locator('.number-frame').isVisible()).toBe(true)
  await page.context().setOffline(false)
  await page.getByText(/^As of/).waitFor({ state: 'detached' })
  await page.close()
})

test('units and colours switch, and stay after a reload', async () => {
  const page = await open('/tests')
  await page.getByRole('button', { name: /^mm, per cm/ }).click()
  await page.getByRole('button', { name: /^as the device/ }).click()
  await page.getByRole('button', { name: /^paper/ }).click()
  expect(await page.evaluate(() => document.documentElement.dataset['scheme'])).toBe('night')
  await page.reload()
  await page.getByRole('button', { name: /^inch, per inch/ }).waitFor()
  expect(await page.evaluate(() => document.documentElement.dataset['scheme'])).toBe('night')
  await page.close()
})
