import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectAccess, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { CALM, type Fixture, type FixtureState, serveFixture } from './fixtureApi.testing.ts'
import { calmTests } from './testsFixture.testing.ts'

type State = Readonly<{
  name: string
  path: string
  set?: Partial<FixtureState>
  /** What one does before looking. */
  act?: (page: Page) => Promise<void>
  waitFor: string
}>

const press =
  (...names: readonly (string | RegExp)[]) =>
  async (page: Page): Promise<void> => {
    for (const name of names) await page.getByRole('button', { name }).first().click()
  }

const STATES: readonly State[] = [
  { name: 'Tests', path: '/tests', waitFor: '.belief' },
  {
    name: 'Tests, table and bucket unfolded',
    path: '/tests',
    waitFor: '.plot',
    act: press('As a table', 'A new bucket', 'Take it down'),
  },
  {
    name: 'Tests, first guesses',
    path: '/tests',
    set: { tests: 'first guesses' },
    waitFor: '.belief',
  },
  { name: 'Tests, alarms', path: '/tests', set: { tests: 'alarms' }, waitFor: '.alarm' },
  { name: 'Tests, no dose', path: '/tests', set: { tests: 'no dose' }, waitFor: '.belief-none' },
  { name: 'Tests as it stood', path: '/tests?on=2026-09-01', waitFor: '.tests-then' },
  {
    name: 'Tests, slow',
    path: '/tests',
    set: { testsMood: 'slow' },
    waitFor: '.standing-says',
  },
  {
    name: 'Tests, refused',
    path: '/tests',
    set: { testsMood: 'refuses' },
    waitFor: '.standing-refused',
  },
  { name: 'Tests without a shop', path: '/tests', set: { shop: 'none' }, waitFor: '.number-frame' },
  {
    name: 'readings',
    path: '/tests/readings?medium=soft+pencil',
    waitFor: '.reading-line',
    act: async (page) => {
      await page
        .getByRole('button', { name: /^Strike it out/ })
        .first()
        .click()
      await page.getByRole('button', { name: 'Strike it out', exact: true }).click()
      await page.getByText('Say in a few words why').waitFor()
    },
  },
  {
    name: 'readings, none',
    path: '/tests/readings',
    set: { readings: [] },
    waitFor: '.readings-none',
  },
  {
    name: 'a wedge, half told',
    path: '/tests/read?what=wedge',
    waitFor: '.wedge',
    act: press(/^Step 6:/, /^Step 9:/, 'My wedge is another one', 'Take it down'),
  },
  {
    name: 'a strip',
    path: '/tests/read?what=strip',
    waitFor: '.strip-band',
    act: async (page) => {
      await page.getByLabel('Dose of band 1').fill('4o')
      await press('Take it down')(page)
    },
  },
  {
    name: 'a screen, by ticks',
    path: '/tests/read?what=outcome',
    waitFor: '.grades',
    act: async (page) => {
      await page.getByLabel('Tell it by').selectOption('ticks')
      await page.getByRole('radio', { name: 'soft' }).check({ force: true })
    },
  },
  {
    name: 'a reading taken down',
    path: '/tests/read?what=wedge',
    waitFor: '.wedge',
    act: async (page) => {
      await page.getByLabel('Dose as it was set').fill('60')
      await press(/^Step 6:/, 'Take it down')(page)
      await page.getByRole('heading', { name: 'Taken down' }).waitFor()
    },
  },
  {
    name: 'Light by seconds, its film elsewhere on the glass',
    path: '/?place=300,120',
    set: { countsIn: 'seconds' },
    waitFor: '.glass-small',
    act: press('Why?'),
  },
  {
    name: 'a wedge that lay elsewhere on the glass',
    path: '/tests/read?what=wedge',
    waitFor: '.wedge',
    act: async (page) => {
      await press('Where it lay on the glass')(page)
      await page.getByRole('textbox', { name: 'from the left' }).fill('9000')
    },
  },
  { name: 'the strip', path: '/tests/strip?medium=soft+pencil', waitFor: '.strip-step' },
  {
    name: 'the lamp',
    path: '/tests/lamp',
    waitFor: '.plot-curve',
    act: async (page) => {
      for (const table of await page.getByRole('button', { name: 'As a table' }).all())
        await table.click()
      await page.getByLabel('Clock, pair 1').fill('1:99')
      await press('A new lamp was fitted', 'Take it down')(page)
    },
  },
  {
    name: 'the lamp, nothing known',
    path: '/tests/lamp',
    set: { lamp: 'nothing' },
    waitFor: 'form',
  },
  {
    name: 'the lamp, by a light meter',
    path: '/tests/lamp?count=480',
    set: { lamp: 'by meter' },
    waitFor: 'form',
    act: async (page) => {
      await page.getByLabel('Meter, reading 1').fill('48')
      await press('How long?', 'Another meter, another light')(page)
      await page.getByLabel('Clock, reading 2').fill('5:99')
      await press('How long?')(page)
      await page.getByRole('alert').waitFor()
    },
  },
  {
    name: 'evenness',
    path: '/tests/evenness',
    waitFor: '.even-map',
    act: press('As a table', 'Take it down'),
  },
  {
    name: 'evenness, nothing known',
    path: '/tests/evenness',
    set: { lamp: 'nothing' },
    waitFor: '.glass',
  },
  {
    name: 'notes',
    path: '/tests/notes',
    waitFor: '.notes-text',
    act: press('Look through them'),
  },
  {
    name: 'notes, looked through',
    path: '/tests/notes',
    waitFor: '.notes-text',
    act: async (page) => {
      await page
        .getByLabel('The notes')
        .fill('date,medium,dose,outcome\n2025-11-03,soft pencil,42,good\n2025-11-05,pen,4o,good')
      await press('Look through them')(page)
      await page.getByText('1 of 2 lines can be taken.').waitFor()
    },
  },
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
  Object.assign(fixture.state, CALM, calmTests(), { lamp: 'known' }, set)
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

test('forced colours leave every word and every thread to be seen', async () => {
  const page = await open(STATES[0], { ...PHONE, forcedColors: 'active', bypassCSP: true })
  expect(await violations(page)).toEqual([])
  await page.context().close()
})
