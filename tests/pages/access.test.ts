import { createRequire } from 'node:module'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openBrowser } from './browser.testing.ts'
import { CALM, type Fixture, type FixtureState, serveFixture } from './fixtureApi.testing.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')

const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true } as const
const LAPTOP = { viewport: { width: 1440, height: 900 } } as const
/** The narrowest there is, a phone, a laptop at 200 %, and one at 100 %. */
const WIDTHS = [
  ['320 px', { width: 320, height: 640 }],
  ['phone', PHONE.viewport],
  ['200 %', { width: 720, height: 450 }],
  ['laptop', LAPTOP.viewport],
] as const

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
    name: 'Light, reasons and bench unfolded',
    path: '/',
    waitFor: '.number-frame',
    act: async (page) => {
      await page.getByRole('button', { name: 'Why?' }).click()
      await page.getByRole('button', { name: 'Take it to the bench' }).click()
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
  { name: 'Day', path: '/day', waitFor: 'h1' },
  { name: 'Tests', path: '/tests', waitFor: 'h1' },
  { name: 'Shop', path: '/shop', set: { shop: 'own' }, waitFor: 'h1' },
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

type Violation = Readonly<{
  id: string
  nodes: readonly Readonly<{ html: string; failureSummary: string }>[]
}>

/** Everything axe finds, its best-practice rules included. */
async function violations(page: Page): Promise<readonly string[]> {
  await page.addScriptTag({ path: AXE })
  const found = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run: (context: Document) => Promise<{ violations: readonly Violation[] }> }
    }
    return (await axe.run(document)).violations
  })
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html}: ${failureSummary}`),
  )
}

describe.each(STATES)('$name', (state) => {
  test.each([
    ['a phone', PHONE],
    ['a laptop', LAPTOP],
  ] as const)('oracle axe: nothing is found on %s, by day and by night', async (_, size) => {
    const page = await open(state, { ...size, bypassCSP: true, reducedMotion: 'reduce' })
    for (const [colorScheme, scheme] of [
      ['light', 'paper'],
      ['dark', 'night'],
    ] as const) {
      await page.emulateMedia({ colorScheme })
      await page.waitForSelector(`html[data-scheme=${scheme}]`)
      expect([scheme, await violations(page)]).toEqual([scheme, []])
    }
    await page.context().close()
  })

  test('nothing scrolls sideways, and what one presses is 48 px high at least', async () => {
    const page = await open(state, PHONE)
    for (const [name, viewport] of WIDTHS) {
      await page.setViewportSize(viewport)
      expect([name, await beyondPx(page)]).toEqual([name, 0])
      expect([name, await lowTargets(page)]).toEqual([name, []])
    }
    await page.context().close()
  })
})

function beyondPx(page: Page): Promise<number> {
  return page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
}

function lowTargets(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('a, button, select, input, [role=slider]')]
      .filter((element) => !element.classList.contains('skip'))
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 47.5 || box.width < 24))
      .map(({ element, box }) => `${element.outerHTML.slice(0, 80)} ${box.width}x${box.height}`),
  )
}

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
