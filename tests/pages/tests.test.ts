import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { meterQuestion, newEvenness, newTiming } from '../../src/api/lamp.ts'
import { newReading } from '../../src/api/tests.ts'
import { openBrowser } from './browser.testing.ts'
import { CALM, type Fixture, type FixtureState, serveFixture } from './fixtureApi.testing.ts'
import { tabbed } from './keys.testing.ts'
import { calmTests } from './testsFixture.testing.ts'

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
  Object.assign(fixture.state, CALM, calmTests(), { lamp: 'known' }, set)
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  await page.goto(fixture.url + path)
  return page
}

describe('what we believe', () => {
  test('can be walked by keys, in the order one reads it, to its main act', async () => {
    const page = await open('/tests')
    await page.waitForSelector('.belief')
    const steps = await tabbed(page, 30)
    const order = [
      'Skip to the page',
      'Tests',
      'Fabric',
      'Bucket',
      'Lamp',
      '42 36 to 47 fairly sure, soft pencil: what it rests on',
      '52 36 to 95 a first guess, printed film: what it rests on',
      'As a table',
      'Make a test strip',
      'I read a wedge',
      'Tell how a screen came out',
    ]
    const places = order.map((name) => steps.findIndex((step) => step.name === name))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
    expect(places.every((place) => place >= 0)).toBe(true)
    expect(steps.filter(({ ring }) => !ring)).toEqual([])
    await page.getByRole('button', { name: 'Make a test strip' }).press('Enter')
    await page.getByRole('heading', { name: 'Which doses to try?' }).waitFor()
    expect(await page.locator('.strip-step').count()).toBe(6)
    await page.close()
  })

  test('a blank moves the question and the address, and the way on keeps them', async () => {
    const page = await open('/tests')
    await page.getByLabel('Fabric').selectOption('f43')
    await expect.poll(() => new URL(page.url()).searchParams.get('fabric')).toBe('f43')
    await page.getByRole('link', { name: 'I read a wedge' }).click()
    expect(new URL(page.url()).searchParams.get('fabric')).toBe('f43')
    await page.close()
  })

  test('as it stood on a day is said, and one comes back to today', async () => {
    const page = await open('/tests')
    await page.getByLabel('See it as it stood on').fill('2026-09-01')
    await page.getByText('As it stood on 1 September 2026.').waitFor()
    await page.getByRole('button', { name: 'Back to today' }).click()
    await page
      .getByText('As it stood on', { exact: false })
      .and(page.locator('strong'))
      .waitFor({ state: 'detached' })
    await page.close()
  })

  test('every reading of the picture stands in its table, newest first', async () => {
    const page = await open('/tests')
    await page.getByRole('button', { name: 'As a table' }).click()
    const days = await page.locator('.as-table tbody th').allTextContents()
    expect(days).toHaveLength(15)
    expect(days.at(0)).toBe('22 Nov')
    expect(await page.locator('.as-table tbody td').first().textContent()).toContain('Wedge at 60')
    await page.close()
  })

  test('today’s is taken as the reference, and a bucket needs a name', async () => {
    const page = await open('/tests')
    await page.getByRole('button', { name: 'Take today’s as the reference' }).click()
    await page.getByText('From now on drift is charted against').waitFor()
    await page.getByRole('button', { name: 'A new bucket' }).click()
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByText('Give the bucket a name').waitFor()
    await page.getByLabel('Its name').fill('December bucket')
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByText('December bucket is taken down.').waitFor()
    await page.close()
  })

  test('the wall chart is asked for on the paper that was chosen', async () => {
    const page = await open('/tests?unit=old')
    await page.getByLabel('Paper of the wall chart').selectOption('tabloid')
    const href = await page.getByRole('link', { name: 'Fetch it as PDF' }).getAttribute('href')
    expect(href).toBe('/api/tests/wall-chart.pdf?unit=old&paper=tabloid')
    await page.close()
  })

  test('while a new answer is worked out the old one stays, dimmed, and is said to be old', async () => {
    const page = await open('/tests')
    await page.waitForSelector('.belief')
    fixture.state.testsMood = 'slow'
    await page.getByLabel('Lamp').selectOption('old')
    await page.getByText('Weighing every reading …').waitFor()
    expect(await page.locator('.tests[aria-busy=true] .belief').count()).toBe(6)
    await page.close()
  })
})

describe('what it rests on', () => {
  test('a number opens its readings; one is struck out by keys, with a reason, and stays marked', async () => {
    const page = await open('/tests')
    await page.getByRole('link', { name: /soft pencil: what it rests on/ }).press('Enter')
    await page
      .getByRole('button', { name: /^Strike it out ?, Soft pencil at 42: good$/ })
      .press('Enter')
    await page.getByRole('button', { name: 'Strike it out', exact: true }).press('Enter')
    await page.getByText('Say in a few words why').waitFor()
    await page.getByRole('button', { name: 'told twice' }).press('Enter')
    expect(await page.getByLabel('Why does it not count?').inputValue()).toBe('told twice')
    await page.getByRole('button', { name: 'Strike it out', exact: true }).press('Enter')
    await page.getByText(/^Struck out on .+: told twice$/).waitFor()
    expect(await page.locator('s', { hasText: 'Soft pencil at 42: good' }).count()).toBe(1)
    expect(await page.getByText('Soft pencil: 41, was 42.').isVisible()).toBe(true)
    await page.close()
  })

  test('a refused striking out keeps the reason that was written', async () => {
    const page = await open('/tests/readings')
    await page
      .getByRole('button', { name: /^Strike it out/ })
      .first()
      .click()
    await page.getByLabel('Why does it not count?').fill('another fabric')
    fixture.state.testsMood = 'refuses'
    await page.getByRole('button', { name: 'Strike it out', exact: true }).click()
    await page.getByText('The records are read only now').waitFor()
    expect(await page.getByLabel('Why does it not count?').inputValue()).toBe('another fabric')
    await page.close()
  })
})

describe('telling a reading', () => {
  test('a wedge is told by keys alone: dose, step, step, and what it moved is read first', async () => {
    const page = await open('/tests/read?what=wedge')
    await page.getByLabel('Dose as it was set').focus()
    await page.keyboard.type('60')
    await page.getByRole('button', { name: 'Step 6: not told' }).press('Enter')
    await page.getByRole('button', { name: 'Step 9: not told' }).press('Enter')
    expect(await page.getByText('Step 6 is the last solid one, step 9 is clear.').count()).toBe(1)
    expect(await page.getByLabel('Last solid step').inputValue()).toBe('6')
    await page.getByLabel('First clear step').press('Enter')
    await page.getByRole('heading', { name: 'Taken down' }).waitFor()
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Taken down')
    expect(await page.locator('.taken-moved li').allTextContents()).toHaveLength(2)
    expect(newReading.parse(fixture.state.told.at(-1))).toMatchObject({
      kind: 'wedge',
      doseLu: 60,
      lastSolidStep: 6,
      firstClearStep: 9,
      screen: 's14',
      unit: 'big',
    })
    await page.close()
  })

  test('what is wrong stands beside its field, which has the keys; the rest stays as it was', async () => {
    const page = await open('/tests/read?what=wedge')
    await page.getByLabel('Last solid step').fill('7')
    await page.getByLabel('Dose as it was set').fill('6o')
    await page.getByRole('button', { name: 'Take it down' }).click()
    const dose = page.getByLabel('Dose as it was set')
    const why = await dose.getAttribute('aria-describedby')
    expect(await page.locator(`[id="${why}"]`).textContent()).toBe(
      'The dose must be a number, like 60. You wrote “6o”.',
    )
    expect(await dose.evaluate((field) => field === document.activeElement)).toBe(true)
    expect(await page.getByLabel('Last solid step').inputValue()).toBe('7')
    await page.close()
  })

  test('a refusal of the shop stands beside the field it is about, and nothing typed is lost, not even by a reload', async () => {
    const page = await open('/tests/read?what=outcome&medium=soft+pencil')
    await page.getByLabel('Dose as it was set').fill('5000')
    await page.getByRole('radio', { name: 'good' }).check({ force: true })
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page
      .locator('.entry', { hasText: 'at most 1000' })
      .getByLabel('Dose as it was set')
      .waitFor()
    await page.reload()
    await page.waitForSelector('.grades')
    expect(await page.getByLabel('Dose as it was set').inputValue()).toBe('5000')
    expect(await page.getByRole('radio', { name: 'good' }).isChecked()).toBe(true)
    await page.close()
  })

  test('without a connection it says so and keeps what was typed', async () => {
    const page = await open('/tests/read?what=wedge')
    await page.getByLabel('Dose as it was set').fill('60')
    await page.getByRole('button', { name: /^Step 6:/ }).click()
    await page.context().setOffline(true)
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByText('What you wrote is kept here').waitFor()
    await page.context().setOffline(false)
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByRole('heading', { name: 'Taken down' }).waitFor()
    await page.close()
  })

  test('a strip that was planned waits with its doses, and is told band by band', async () => {
    const page = await open('/tests/strip?medium=soft+pencil&bands=4')
    await page.waitForSelector('.strip-step')
    await page.getByRole('link', { name: 'Then tell how it came out' }).click()
    await page.waitForSelector('.strip-band')
    expect(await page.getByText('The bands of the strip you planned on').count()).toBe(1)
    const doses = await Promise.all(
      [1, 2, 3, 4].map((band) =>
        page.getByLabel(`Dose of band ${band}`, { exact: true }).inputValue(),
      ),
    )
    expect(doses).toEqual(['26', '35', '46', '62'])
    for (const [at, grade] of ['washed off', 'good', 'good', 'filled'].entries()) {
      await page
        .getByRole('radiogroup', { name: `How band ${at + 1}, ${doses[at]}, came out` })
        .getByRole('radio', { name: grade, exact: true })
        .check({ force: true })
    }
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByRole('heading', { name: 'Taken down' }).waitFor()
    expect(newReading.parse(fixture.state.told.at(-1))).toMatchObject({
      kind: 'strip',
      medium: 'soft pencil',
      bands: [
        { doseLu: 26, is: { grade: 'washed off' } },
        { doseLu: 35, is: { grade: 'good' } },
        { doseLu: 46, is: { grade: 'good' } },
        { doseLu: 62, is: { grade: 'filled' } },
      ],
    })
    await page.close()
  })
})

describe('the lamp and its light', () => {
  test('clock and counter go out in seconds, pairs left empty do not', async () => {
    const page = await open('/tests/lamp')
    for (const [at, [clock, count]] of [
      ['0:30', '11,5'],
      ['1:30', '41'],
    ].entries()) {
      await page.getByLabel(`Clock, pair ${at + 1}`).fill(clock ?? '')
      await page.getByLabel(`Counter, pair ${at + 1}`).fill(count ?? '')
    }
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByText('The timing is taken down.').waitFor()
    expect(newTiming.parse(fixture.state.told.at(-1))).toMatchObject({
      from: 'cold',
      unit: 'big',
      pairs: [
        { clockSec: 30, count: 11.5 },
        { clockSec: 90, count: 41 },
      ],
    })
    await page.close()
  })

  test('a dose comes along from Light; each reading of the meter makes seconds, and the next stands ready', async () => {
    const page = await open('/tests/lamp?count=480', { lamp: 'by meter' })
    await page.getByLabel('Meter, reading 1').fill('48')
    await page.getByRole('button', { name: 'How long?' }).click()
    await page.getByText('620', { exact: true }).waitFor()
    expect(await page.getByLabel('Clock, reading 2').inputValue()).toBe('5:10')
    await page.getByLabel('Meter, reading 2').fill('52')
    await page.getByRole('button', { name: 'How long?' }).click()
    await page.getByText('274', { exact: true }).waitFor()
    expect(meterQuestion.parse(fixture.state.told.at(-1))).toEqual({
      unit: 'big',
      count: 480,
      readings: [
        { clockSec: 0, reading: 48 },
        { clockSec: 310, reading: 52 },
      ],
    })
    await page.close()
  })

  test('a tap on the glass lays a wedge where the finger was, seen from the front left corner', async () => {
    const page = await open('/tests/evenness')
    const box = await page.locator('.glass').boundingBox()
    if (box === null) throw new Error('no glass')
    await page.mouse.click(box.x + box.width * 0.25, box.y + box.height * (1 - 0.75))
    expect(Number(await page.getByLabel('Place 6, from left').inputValue())).toBeCloseTo(300, -1)
    expect(Number(await page.getByLabel('Place 6, from front').inputValue())).toBeCloseTo(680, -1)
    await page.getByLabel('Dose as it was set').fill('60')
    for (const place of [1, 2, 3, 6])
      await page.getByLabel(`Place ${place}, last solid step`).fill('6')
    await page.getByRole('button', { name: 'Take it down' }).click()
    await page.getByText('The wedges are taken down.').waitFor()
    expect(newEvenness.parse(fixture.state.told.at(-1)).places).toHaveLength(4)
    await page.close()
  })
})

test('under a lamp that counts seconds Light says those from cold beside those of a hot lamp', async () => {
  const page = await open('/', { countsIn: 'seconds' })
  await page.getByText('from cold 49, hot 42').waitFor()
  await page.getByRole('button', { name: 'Why?' }).click()
  await page.getByText('0.4 wedge steps too little').waitFor()
  const bench = page.getByRole('link', { name: 'Take it to the bench' })
  expect(await bench.getAttribute('href')).toMatch(/^\/bench\?medium=/)
  await page.close()
})

test('where a film lies on the glass is tapped or written, on Light and for a reading', async () => {
  const page = await open('/')
  await page.getByRole('button', { name: 'Where it lies on the glass' }).click()
  const glass = page.getByRole('img', { name: /^The glass from above/ })
  const box = await glass.boundingBox()
  if (box === null) throw new Error('no glass')
  await page.mouse.click(box.x + box.width * 0.25, box.y + box.height * (1 - 0.75))
  await expect.poll(() => new URL(page.url()).searchParams.get('place')).toMatch(/^300,6[78]0$/)
  await page.getByRole('textbox', { name: 'from the left' }).fill('1100')
  await expect.poll(() => new URL(page.url()).searchParams.get('place')).toMatch(/^1100,6[78]0$/)
  await page.getByRole('button', { name: 'Back to the middle' }).click()
  await expect.poll(() => new URL(page.url()).searchParams.get('place')).toBeNull()

  await page.goto(`${fixture.url}/tests/read?what=wedge`)
  await page.getByLabel('Dose as it was set').fill('60')
  await page.getByRole('button', { name: /^Step 6:/ }).click()
  await page.getByRole('button', { name: 'Where it lay on the glass' }).click()
  await page.getByRole('textbox', { name: 'from the front' }).fill('120')
  await page.getByRole('button', { name: 'Take it down' }).click()
  await page.getByRole('heading', { name: 'Taken down' }).waitFor()
  expect(newReading.parse(fixture.state.told.at(-1)).place).toEqual({ xMm: 600, yMm: 120 })
  await page.close()
})

test('old notes are looked through first, from a file, and taken down only when one says so', async () => {
  const page = await open('/tests/notes')
  await page.locator('input[type=file]').setInputFiles({
    name: 'notes.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(
      'date,medium,dose,outcome\n2025-11-03,soft pencil,42,good\n2025-11-05,pen,4o,good\n',
    ),
  })
  await page.getByRole('button', { name: 'Look through them' }).click()
  await page.getByText('1 of 2 lines can be taken.').waitFor()
  expect(await page.locator('.notes-look li').textContent()).toContain('Line 3')
  await page.getByRole('button', { name: 'Take this reading' }).click()
  await page.getByText('One reading is taken down.').waitFor()
  await page.close()
})
