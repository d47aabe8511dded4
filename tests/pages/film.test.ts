import { createRequire } from 'node:module'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openBrowser } from './browser.testing.ts'
import { type FilmFixture, type FilmState, serveFilms } from './filmFixture.testing.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')
const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true } as const
const LAPTOP = { viewport: { width: 1440, height: 900 } } as const
const PAINTED = '.film-stage canvas[width]'

let browser: Browser
let fixture: FilmFixture

beforeAll(async () => {
  fixture = await serveFilms()
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await fixture.stop()
})

async function open(
  path: string,
  options: BrowserContextOptions = LAPTOP,
  set: Partial<FilmState> = {},
): Promise<Page> {
  Object.assign(
    fixture.state,
    { mood: 'answers', answer: null, upload: 'taken', uploads: [] } satisfies FilmState,
    set,
  )
  const context = await browser.newContext(options)
  const page = await context.newPage()
  await page.goto(fixture.url + path)
  return page
}

/** Shares of the canvas in each ink, by the tokens of the paper scheme. */
function inks(
  page: Page,
): Promise<Readonly<{ ink: number; cut: number; soft: number; sheet: number }>> {
  return page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('.film-stage canvas')
    const brush = canvas?.getContext('2d')
    if (!canvas || !brush) throw new Error('no canvas')
    const { data } = brush.getImageData(0, 0, canvas.width, canvas.height)
    const count = { ink: 0, cut: 0, soft: 0, sheet: 0 }
    for (let at = 0; at < data.length; at += 4) {
      const [red, green, alpha] = [data[at], data[at + 1], data[at + 3]]
      if (alpha === 0) continue
      if (red > 240 && green > 240) count.sheet += 1
      else if (red < 60 && green < 60) count.ink += 1
      else if (red - green > 40) count.cut += 1
      else count.soft += 1
    }
    return count
  })
}

async function settledInks(page: Page): Promise<Awaited<ReturnType<typeof inks>>> {
  await page.waitForSelector(PAINTED)
  let before = ''
  for (;;) {
    await page.waitForTimeout(150)
    const now = await inks(page)
    if (JSON.stringify(now) === before) return now
    before = JSON.stringify(now)
  }
}

async function dose(page: Page, key: string, times = 1): Promise<void> {
  await page.locator('[role=slider]').focus()
  for (let press = 0; press < times; press += 1) await page.keyboard.press(key)
}

describe('the picture', () => {
  test('more light leaves less ink and more doubt, less light washes the ground away', async () => {
    const page = await open('/film/ink')
    const middle = await settledInks(page)
    expect(middle.ink).toBeGreaterThan(5000)
    await dose(page, 'End')
    const most = await settledInks(page)
    expect(most.ink).toBeLessThan(middle.ink)
    expect(most.cut).toBeGreaterThan(middle.cut)
    await dose(page, 'Home')
    const least = await settledInks(page)
    expect(least.ink).toBeGreaterThan(most.ink)
    await page.context().close()
  })

  test('as drawn it has neither doubt nor outline, and its sentence says so', async () => {
    const page = await open('/film/ink')
    await settledInks(page)
    await page.getByRole('button', { name: 'as drawn' }).click()
    const drawn = await settledInks(page)
    expect(drawn.cut).toBe(0)
    await expect
      .poll(() => page.getByRole('img', { name: 'The film as it was drawn.' }).count())
      .toBe(1)
    await page.getByRole('button', { name: 'as it will print' }).click({ force: true })
    await expect.poll(() => page.getByText('comes in a later version').count()).toBe(1)
    await page.context().close()
  })

  test('one comes as near as single film pixels by keys, and back to the whole film', async () => {
    const page = await open('/film/kettle')
    const whole = await settledInks(page)
    await page.locator('.film-stage').focus()
    for (let press = 0; press < 12; press += 1) await page.keyboard.press('+')
    const near = await settledInks(page)
    expect(near).not.toEqual(whole)
    const wide = await page.locator('.film-tools p').textContent()
    // 24 CSS pixels a film pixel of 0.169 mm: a stage of some 800 px shows under 10 mm
    expect(Number.parseFloat(wide ?? '')).toBeLessThan(10)
    await page.keyboard.press('0')
    expect(await settledInks(page)).toEqual(whole)
    await page.context().close()
  })

  test('a wheel comes nearer where the pointer is', async () => {
    const page = await open('/film/kettle')
    await settledInks(page)
    await page.locator('.film-stage').hover()
    await page.mouse.wheel(0, -600)
    await expect.poll(() => page.locator('.film-tools p').textContent()).not.toContain('210 mm')
    await page.context().close()
  })

  test('stands before the findings have come', async () => {
    const page = await open('/film/ink', LAPTOP, { mood: 'picture first' })
    expect((await settledInks(page)).ink).toBeGreaterThan(5000)
    await expect.poll(() => page.getByText('Looking for the weakest marks').count()).toBe(1)
    fixture.state.mood = 'answers'
    await page.waitForSelector('.finding')
    await page.context().close()
  })
})

test('an entry of the list that is focused moves the loupe and thickens its ring', async () => {
  const page = await open('/film/ink')
  await settledInks(page)
  const leader = (): Promise<string | null> =>
    page.locator('.film-leader circle').getAttribute('cx', { timeout: 2000 })
  const first = await leader()
  await page.locator('.finding button').nth(1).focus()
  await expect.poll(leader).not.toBe(first)
  expect(await page.locator('.wax-focused').count()).toBe(1)
  expect(await page.locator('.loupe canvas').count()).toBe(1)
  await page.context().close()
})

test('underdrawing is asked about once, and can be asked about again', async () => {
  const page = await open('/film/ink')
  await page.getByRole('button', { name: 'Yes, they stay shut' }).click()
  await page.waitForSelector('.faint-answered')
  expect(fixture.state.answer).toBe('stays shut')
  expect(await page.locator('.faint').count()).toBe(0)
  await page.getByRole('button', { name: 'Ask me again' }).click()
  fixture.state.mood = 'refuses'
  await page.getByRole('button', { name: 'No, they print' }).click()
  await expect.poll(() => page.getByRole('alert').textContent()).toContain('read only')
  await page.context().close()
})

test('the page can be walked by keys to its main act', async () => {
  const page = await open('/film/ink')
  await settledInks(page)
  const seen: string[] = []
  for (let press = 0; press < 30; press += 1) {
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
  const order = ['as drawn', 'The film at true', 'Dose', '1', 'Use 4']
  const places = order.map((start) => seen.findIndex((name) => name.startsWith(start)))
  expect(places).not.toContain(-1)
  expect(places).toEqual(places.toSorted((a, b) => a - b))
  await page.keyboard.press('Enter')
  await expect.poll(() => page.getByText('The lid is heavy').isVisible()).toBe(true)
  await page.context().close()
})

describe('bringing a film', () => {
  const FILE = { name: 'my film.png', mimeType: 'image/png', buffer: Buffer.from('not looked at') }

  test('a file that cannot be read gets its sentence, and is sent again with what was missing', async () => {
    const page = await open('/film', LAPTOP, { upload: 'unreadable' })
    await page.setInputFiles('input[type=file]', FILE)
    await expect.poll(() => page.locator('.upload-refused').textContent()).toContain('720')
    fixture.state.upload = 'taken'
    await page.getByLabel('Pixels per inch').fill('300')
    await page.getByRole('button', { name: 'Read my film.png' }).click()
    await page.waitForSelector(PAINTED)
    expect(page.url()).toBe(`${fixture.url}/film/new`)
    expect(fixture.state.uploads).toEqual([
      { name: 'my film.png', query: {}, bytes: 13 },
      { name: 'my film.png', query: { resolutionDpi: '300' }, bytes: 13 },
    ])
    await page.context().close()
  })

  test('a refusal is shown as its sentence and everything is kept', async () => {
    const page = await open('/film', PHONE, { upload: 'refused' })
    await page.getByLabel('Density of full black').fill('2.8')
    await page.setInputFiles('input[type=file]', FILE)
    await expect
      .poll(() => page.locator('.upload-refused').textContent())
      .toContain('The disk is full')
    expect(await page.getByLabel('Density of full black').inputValue()).toBe('2.8')
    expect(await page.getByRole('button', { name: 'Read my film.png' }).count()).toBe(1)
    await page.context().close()
  })

  test('a wrong number is said beside its blank and nothing is sent', async () => {
    const page = await open('/film')
    await page.getByLabel('Pixels per inch').fill('72o')
    await page.setInputFiles('input[type=file]', FILE)
    await expect.poll(() => page.getByText('You wrote “72o”').count()).toBe(1)
    expect(fixture.state.uploads).toEqual([])
    await page.context().close()
  })
})

const STATES: readonly Readonly<{
  name: string
  path: string
  set?: Partial<FilmState>
  waitFor: string
  act?: (page: Page) => Promise<unknown>
}>[] = [
  { name: 'film', path: '/film/kettle', waitFor: '.finding' },
  {
    name: 'film with all findings and the act unfolded',
    path: '/film/ink',
    waitFor: '.finding',
    act: async (page) => {
      await page.getByRole('button', { name: /^Show/ }).click()
      await page.getByRole('button', { name: /^Use/ }).click()
      await page.getByRole('button', { name: 'as it will print' }).click({ force: true })
    },
  },
  { name: 'film being read', path: '/film/ink', set: { mood: 'reading' }, waitFor: 'progress' },
  { name: 'picture first', path: '/film/ink', set: { mood: 'picture first' }, waitFor: PAINTED },
  { name: 'failed', path: '/film/ink', set: { mood: 'failed' }, waitFor: '.film-failed' },
  { name: 'no such film', path: '/film/none', waitFor: '.standing-refused' },
  { name: 'upload', path: '/film', waitFor: '.films-here' },
]

describe.each(STATES)('$name', ({ path, set, waitFor, act }) => {
  test.each([
    ['a phone', PHONE],
    ['a laptop', LAPTOP],
  ] as const)('oracle axe: nothing is found on %s, by day and by night', async (_, size) => {
    const page = await open(path, { ...size, bypassCSP: true, reducedMotion: 'reduce' }, set)
    await page.waitForSelector(waitFor)
    await act?.(page)
    await page.addScriptTag({ path: AXE })
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

  test('nothing scrolls sideways down to 320 px, and what one presses is 48 px high at least', async () => {
    const page = await open(path, PHONE, set)
    await page.waitForSelector(waitFor)
    await act?.(page)
    for (const width of [390, 320, 720]) {
      await page.setViewportSize({ width, height: 640 })
      await page.waitForTimeout(100)
      const beyond = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      expect([width, beyond]).toEqual([width, 0])
      expect([width, await lowTargets(page)]).toEqual([width, []])
    }
    await page.context().close()
  })
})

test('forced colours leave every word to be seen, and the picture is painted in them', async () => {
  const page = await open('/film/ink', { ...LAPTOP, forcedColors: 'active', bypassCSP: true })
  await page.waitForSelector('.finding')
  await page.addScriptTag({ path: AXE })
  expect(await violations(page)).toEqual([])
  await page.context().close()
})

type Violation = Readonly<{
  id: string
  nodes: readonly Readonly<{ html: string; failureSummary: string }>[]
}>

async function violations(page: Page): Promise<readonly string[]> {
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

function lowTargets(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('a, button, select, input:not([type=file]), [role=slider]')]
      .filter((element) => !element.classList.contains('skip'))
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 47.5 || box.width < 24))
      .map(({ element, box }) => `${element.outerHTML.slice(0, 80)} ${box.width}x${box.height}`),
  )
}
