import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { beyondPx, expectAccess, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { CALM, type Fixture, type FixtureState, serveFixture } from './fixtureApi.testing.ts'

type State = Readonly<{
  name: string
  path: string
  set?: Partial<FixtureState>
  /** What one does before looking. */
  act?: (page: Page) => Promise<void>
  waitFor: string
}>

const STATES: readonly State[] = [
  { name: 'Light', path: '/', waitFor: '.number-frame' },
  {
    name: 'Light, reasons unfolded',
    path: '/',
    waitFor: '.number-frame',
    act: async (page) => {
      await page.getByRole('button', { name: 'Why?' }).click()
    },
  },
  {
    name: 'Light, a first guess',
    path: '/',
    set: { word: 'a first guess' },
    waitFor: '.number-frame',
  },
  { name: 'Light, no dose', path: '/', set: { verdict: 'no dose' }, waitFor: '.number-frame' },
  { name: 'Light, refused', path: '/', set: { mood: 'refuses' }, waitFor: '.standing-refused' },
  { name: 'Light, slow', path: '/', set: { mood: 'slow' }, waitFor: '.standing-says' },
  { name: 'Light of a film', path: '/?film=f1', waitFor: '.number-frame' },
  { name: 'opening', path: '/', set: { mood: 'opening' }, waitFor: '.standing-says' },
  { name: 'no connection', path: '/', set: { mood: 'cut off' }, waitFor: '.standing-says' },
  { name: 'first page', path: '/', set: { shop: 'none' }, waitFor: '.number-frame' },
  {
    name: 'first page, filled',
    path: '/',
    set: { shop: 'none' },
    waitFor: '.number-frame',
    act: async (page) => {
      await page.getByLabel('Usual fabric').selectOption('90-48')
      await page.getByLabel('Dose of last time').fill('42o')
      await page.getByRole('button', { name: 'add it' }).click()
      await page.getByRole('button', { name: 'How to make one' }).click()
    },
  },
  { name: 'Tickets', path: '/tickets', waitFor: 'h1' },
  { name: 'Day', path: '/day', waitFor: '.day-picture' },
  { name: 'Tests', path: '/tests', waitFor: 'h1' },
  {
    name: 'Shop, a sentence opened and changed',
    path: '/shop',
    set: { shop: 'own' },
    waitFor: '.room-says',
    act: async (page) => {
      await page.getByRole('button', { name: 'Pond green' }).click()
      await page.getByRole('button', { name: 'Change it' }).click()
    },
  },
  { name: 'Why did it fail?', path: '/trouble?yes=thin+marks+shut', waitFor: '.trouble-first' },
  {
    name: 'the table of causes, a cause opened and a link changed',
    path: '/trouble/causes',
    waitFor: '.room-says',
    act: async (page) => {
      await page.getByRole('button', { name: 'The film lets light' }).click()
      await page.getByRole('button', { name: 'How often it shows a sign' }).click()
      await page.getByRole('button', { name: 'Keep it' }).click()
    },
  },
  { name: 'signs', path: '/signs', waitFor: '.signs' },
  { name: 'nowhere', path: '/nothing', waitFor: 'h1' },
]

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

async function open(
  { path, set = {}, waitFor, act }: State,
  options: BrowserContextOptions,
): Promise<Page> {
  Object.assign(fixture.state, CALM, set)
  const context = await browser.newContext(options)
  const page = await context.newPage()
  await page.goto(fixture.url + path)
  await page.waitForSelector(waitFor)
  await act?.(page)
  return page
}

describe.each(STATES)('$name', (state) => {
  test('oracle axe: nothing is found on a phone and a laptop, by day and by night; nothing scrolls sideways, and what one presses is 48 px high', async () => {
    const page = await open(state, { ...PHONE, bypassCSP: true, reducedMotion: 'reduce' })
    await expectAccess(page)
    await page.context().close()
  })
})

test('a page that breaks says so in its place, and the doors lead on', async () => {
  const context = await browser.newContext({ ...PHONE, bypassCSP: true, reducedMotion: 'reduce' })
  const page = await context.newPage()
  Object.assign(fixture.state, CALM)
  // an answer that no server gives
  await page.route(`**${PATHS.filmQueue}?*`, (route) => route.fulfill({ json: { films: null } }))
  await page.goto(`${fixture.url}/tickets`)
  await page.getByRole('heading', { name: 'This page broke' }).waitFor()
  expect([await violations(page), await lowTargets(page), await beyondPx(page)]).toEqual([
    [],
    [],
    0,
  ])
  await page.getByRole('link', { name: 'Tests' }).click()
  await page.getByRole('heading', { name: 'This page broke' }).waitFor({ state: 'detached' })
  await page.unroute(`**${PATHS.filmQueue}?*`)
  await page.getByRole('link', { name: 'Tickets' }).click()
  await page.getByText('Night ferry, black').waitFor()
  await context.close()
})

test('forced colours leave every word and every thread to be seen', async () => {
  const page = await open(STATES[0], { ...PHONE, forcedColors: 'active', bypassCSP: true })
  expect(await violations(page)).toEqual([])
  await page.context().close()
})

test('without motion nothing moves', async () => {
  const page = await open(STATES[0], { ...PHONE, reducedMotion: 'reduce' })
  const moving = await page.evaluate(
    () =>
      [...document.querySelectorAll('*')].filter((element) => {
        const { transitionDuration, animationName } = getComputedStyle(element)
        return (
          animationName !== 'none' ||
          transitionDuration.split(', ').some((time) => parseFloat(time) > 0)
        )
      }).length,
  )
  expect(moving).toBe(0)
  await page.context().close()
})
