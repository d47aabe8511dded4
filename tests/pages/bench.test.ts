import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { type Run, run, stepList } from '../../src/api/bench.ts'
import { PATHS, personActsPath, runPath } from '../../src/api/paths.ts'
import type { Cards, People } from '../../src/api/people.ts'
import { choices } from '../../src/api/shop.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { byPdfium } from '../../src/formats/pdfReaders.testing.ts'
import { opened, postJson, until } from '../server/shopRoom.ts'
import { beyondPx, LAPTOP, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type OwnServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000
const KIOSK = { viewport: { width: 1280, height: 800 } } as const

let browser: Browser
let server: OwnServer

beforeAll(async () => {
  ;[browser, server] = await Promise.all([openBrowser(), startOwnYellowroom()])
  await opened(server)
  expect((await postJson(`${server.url}${PATHS.demoShop}`)).status).toBe(201)
}, PATIENCE_MS)
afterAll(async () => {
  await browser.close()
  await server.stop()
})

/** Beside unexposed emulsion: no blue, little green, little light; each state that a step can have. */
async function isDark(page: Page, state: string): Promise<void> {
  const { data, info } = await sharp(await page.screenshot())
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  let [green, blue, lit, over] = [0, 0, 0, 0]
  for (let at = 0; at < data.length; at += 3) {
    const [r = 0, g = 0, b = 0] = data.subarray(at, at + 3)
    green = Math.max(green, g)
    blue = Math.max(blue, b)
    if (g > Math.ceil(r / 2)) over++
    if (r > 0) lit++
  }
  const isRed = (await page.locator('html').getAttribute('data-light')) === 'red'
  expect([state, blue, over, green <= (isRed ? 0 : 112)]).toEqual([state, 0, 0, true])
  expect(lit / (info.width * info.height)).toBeGreaterThan(0.005)
  expect([state, lit / (info.width * info.height) <= 0.2]).toEqual([state, true])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
}

/** Dark, and nothing small in it, nothing hard to press, nothing that axe finds. */
async function staysDark(page: Page, state: string): Promise<void> {
  await isDark(page, state)
  const small = await page.evaluate(() => {
    const shown = [...document.querySelectorAll('.bench *')].filter(
      (element) =>
        element.closest('.unseen, svg') === null &&
        [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent !== ''),
    )
    const letters = shown.filter((each) => Number.parseFloat(getComputedStyle(each).fontSize) < 24)
    const targets = [...document.querySelectorAll('.bench button, .bench a')].filter((each) => {
      const { width, height } = each.getBoundingClientRect()
      return width < 63.5 || height < 63.5
    })
    return [...letters, ...targets].map((each) => each.outerHTML.slice(0, 90))
  })
  expect([state, small]).toEqual([state, []])
  expect([state, await violations(page)]).toEqual([state, []])
}

/** The act in the lower quarter is in sight whatever else there is. */
async function actIsSeen(page: Page): Promise<void> {
  const box = await page.locator('.bench-main-act').boundingBox()
  const height = page.viewportSize()?.height ?? 0
  expect(box !== null && box.y + box.height <= height + 1).toBe(true)
}

const title = (page: Page, words: string) => page.getByRole('heading', { name: words }).waitFor()
/** What the device shook by, as it is told. */
async function feeling(page: Page): Promise<() => Promise<readonly unknown[]>> {
  await page.addInitScript(() => {
    const shaken: unknown[] = []
    Object.assign(globalThis, { shaken })
    navigator.vibrate = (by) => shaken.push(by) > 0
  })
  return () => page.evaluate(() => (globalThis as unknown as { shaken: unknown[] }).shaken)
}

/** Seconds on the clock. */
async function secondsShown(page: Page): Promise<number> {
  const [, min, sec] =
    /(\d+):(\d\d)/.exec((await page.getByRole('timer').textContent()) ?? '') ?? []
  return 60 * Number(min) + Number(sec)
}

const press = (page: Page, words: string) =>
  page.getByRole('button', { name: words, exact: true }).click()
const known = async (page: Page): Promise<Run> => {
  const id = new URL(page.url()).pathname.split('/').at(-1) ?? ''
  return run.parse(await (await fetch(`${server.url}${runPath(id)}`)).json())
}

test(
  'a clock goes on through a reload and a killed server; what is done without a connection is told once',
  async () => {
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    await page.goto(server.url)
    await page.getByRole('link', { name: 'Take it to the bench' }).click()
    await title(page, 'At the bench')
    await staysDark(page, 'before the first step')
    await press(page, 'Begin')
    await title(page, 'Take the screen')
    await isDark(page, 'the first step')
    await press(page, 'It is the one, and dry')
    await title(page, 'Wipe the glass')
    await isDark(page, 'the glass')
    await press(page, 'Clean and dry')
    await title(page, 'Lay the film')
    await isDark(page, 'the film')
    await press(page, 'Not right')
    await staysDark(page, 'what is not right')
    expect(await page.locator('.bench-cause').count()).toBe(3)
    await page.getByRole('button', { name: 'It reads mirrored.' }).click()
    await press(page, 'Reads right, image side up')
    await title(page, 'Lay the screen on it')
    await isDark(page, 'the screen on it')
    await press(page, 'Clear all round, cord laid')
    await title(page, 'Lower the lid')
    await staysDark(page, 'a caution')
    await press(page, 'It rests and is latched')
    await title(page, 'Pull the vacuum')
    await isDark(page, 'the gauge')
    await press(page, 'The pump runs')
    await page.getByRole('timer').waitFor()
    await until(async () => ((await known(page)).events.length === 7 ? true : null), 'telling')
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => null))
    await server.kill()
    // from cold: nobody answers, and a page that is loaded anew has the exposure with its clock
    await page.reload()
    await page.getByRole('timer').waitFor()
    await server.startAgain()
    // the first question may go down a line to the one that was killed
    await until(() => opened(server).catch(() => null), 'opening again')
    const left = await page.getByRole('timer').textContent()
    // it was wound up to 60 s, and went on while nobody was there
    expect(left).not.toBe('1:00')
    expect((await known(page)).events).toHaveLength(7)

    await context.setOffline(true)
    await press(page, 'The gauge stands there')
    await press(page, '10 more')
    await press(page, '10 more')
    expect(await page.locator('.bench-main-act').getAttribute('aria-disabled')).toBe('true')
    await isDark(page, 'a count that is far off')
    await press(page, '10 less')
    await press(page, '10 less')
    await page.locator('.bench-main-act').click()
    await title(page, 'Light the lamp')
    await page.getByText('No connection since').waitFor()
    await staysDark(page, 'no connection')
    await actIsSeen(page)
    await press(page, 'If the lid leaks?')
    await isDark(page, 'what a leaking lid lets out')
    await press(page, 'It is lit')
    expect((await known(page)).events).toHaveLength(7)
    await context.setOffline(false)
    const told = await until(async () => {
      const now = await known(page)
      return now.events.length >= 10 ? now : null
    }, 'telling again')
    expect(told.events.map(({ step, kind }) => `${step} ${kind}`)).toEqual([
      'screen done',
      'glass done',
      'film not right',
      'film done',
      'lay done',
      'lid done',
      'vacuum clock',
      'vacuum done',
      'set done',
      'lamp clock',
    ])
    expect(new Set(told.events.map(({ key }) => key)).size).toBe(10)
    await page.getByText('No connection since').waitFor({ state: 'detached' })
    await context.close()
  },
  PATIENCE_MS,
)

test(
  'from the lamp to the end by keys, in amber; the wedge’s two numbers become a reading',
  async () => {
    const context = await browser.newContext({ ...KIOSK, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    const shaken = await feeling(page)
    await page.clock.install()
    await page.goto(`${server.url}/bench`)
    await press(page, 'amber')
    await page.getByText('Go on with soft pencil').click()
    await title(page, 'Light the lamp')
    await isDark(page, 'the lamp, in amber')
    await actIsSeen(page)
    await page.keyboard.press('Enter')
    await page.keyboard.press(' ')
    await title(page, 'Wet both sides')
    await isDark(page, 'wetting')
    await page.keyboard.press('ArrowLeft')
    await title(page, 'What did it count?')
    await staysDark(page, 'a number')
    await page.keyboard.press('Enter')
    await press(page, 'Both sides are wet')
    await page.keyboard.press('Enter')
    await press(page, 'The water is on')
    await staysDark(page, 'a clock that runs')
    await actIsSeen(page)
    // the device sleeps, by its clock, and wakes without a connection
    await until(
      async () => ((await known(page)).events.at(-1)?.step === 'wash' ? true : null),
      'wash',
    )
    await context.setOffline(true)
    const before = await secondsShown(page)
    const sleptSec = before - 20
    expect(sleptSec).toBeGreaterThan(10)
    await page.clock.fastForward(1000 * sleptSec)
    const after = await secondsShown(page)
    near(before - after, sleptSec, {
      within: 2.5,
      because: 'within 1 s, and each reading takes its time',
    })
    expect(await shaken()).toEqual([])
    await page.clock.fastForward(25_000)
    await page.getByText('over').waitFor()
    await isDark(page, 'a clock that rang')
    await actIsSeen(page)
    expect(await shaken()).toContainEqual([300, 150, 300, 150, 300])
    await context.setOffline(false)
    await press(page, 'It is open everywhere')
    await title(page, 'Hold it to the light')
    await isDark(page, 'held to the light')
    await page.keyboard.press('n')
    await page.getByRole('button', { name: 'A veil lies over everything.' }).click()
    await press(page, 'The water is on')
    await press(page, 'It is open everywhere')
    await press(page, 'Open and whole')
    await title(page, 'Read the wedge')
    await page.keyboard.press('Enter') // nothing was read yet
    await press(page, 'last solid: 1 more')
    await press(page, 'first clear: 1 more')
    await press(page, 'first clear: 1 more')
    await isDark(page, 'a wedge')
    await press(page, 'Note both')
    await press(page, 'It is in the cabinet')
    await isDark(page, 'drying')
    await press(page, 'It is dry')
    await title(page, 'Let the lamp cool')
    await isDark(page, 'cooling')
    await press(page, 'All is tidy')
    await title(page, 'It is done')
    await page.getByText('The wedge went to Tests.').waitFor()
    await staysDark(page, 'the end')
    const { events, readings, endedAt } = await known(page)
    expect(events.filter(({ step }) => step === 'wedge')).toMatchObject([{ value: 7, second: 9 }])
    expect([readings, endedAt !== null]).toEqual([{ wedge: true, outcome: true }, true])
    await press(page, 'Next film: ask Light')
    await title(page, 'Is all unexposed emulsion covered?')
    await isDark(page, 'leaving')
    await press(page, 'It is: leave')
    await title(page, 'How much light?')
    expect(await page.locator('html').getAttribute('data-scheme')).not.toBe('bench')
    await page.goto(`${server.url}/steps`)
    await press(page, 'Change Wash out, both sides')
    await page.getByLabel('Its clock').fill('75')
    await press(page, 'Add a step after it')
    await page.getByLabel('What to do').last().fill('Sweep the floor')
    expect(await violations(page)).toEqual([])
    await press(page, 'Keep these steps')
    await page.getByText('Kept: exposures that begin').waitFor()
    const unit = choices.parse(await (await fetch(`${server.url}${PATHS.choices}`)).json()).usual
      .unit
    const list = await (await fetch(`${server.url}${PATHS.stepLists}/${unit}`)).json()
    expect(stepList.parse(list).list?.slice(10, 12)).toEqual([
      { name: 'wash', clockSec: 75 },
      { name: 'own-1', title: 'Sweep the floor' },
    ])
    await context.close()
  },
  PATIENCE_MS,
)

test(
  'a class: a card, a sign-off that ran out, a tag from a picture, remover’s clock that follows its person',
  async () => {
    const { people } = await told<People>(PATHS.people, { name: 'Lea Ward', role: 'lead' })
    const idOf = (name: string) => people.find((person) => person.name === name)?.id ?? ''
    const whom = ['Jonah Pell', 'Dov Ashgrove'].map(idOf)
    const { cards } = await told<Cards>(PATHS.cards, { people: whom })
    const [jonah = '', dov = ''] = cards.map(({ code }) => code)
    const labels = await (await fetch(`${server.url}${PATHS.screenLabels}?tags=22`)).arrayBuffer()
    const password = { kind: 'password', password: 'demo words of a lead' }
    await told(personActsPath(idOf('Lea Ward')), password)
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    const shaken = await feeling(page)
    await page.clock.install()
    await page.goto(server.url)
    await page.getByLabel('The code on your card').fill(jonah.toUpperCase())
    await press(page, 'Sign in')
    await page.getByRole('link', { name: 'Take it to the bench' }).click()
    await page.getByText(/^Your sign-off for the big lamp ran out on .*: ask Maro Linde/).waitFor()
    await staysDark(page, 'refused')
    expect(await page.locator('.bench-main-act').getAttribute('aria-disabled')).toBe('true')

    await page.goto(`${server.url}/people/sign-in`)
    await press(page, 'Sign out on this device')
    await page.getByLabel('The code on your card').waitFor()
    await page.goto(`${server.url}/people/sign-in#${dov}`) // as a scanned card opens it
    await page.getByRole('link', { name: 'Dov Ashgrove' }).waitFor()
    const tag = await codeIn(new Uint8Array(labels))
    await page.goto(`${server.url}${new URL(tag).pathname}`)
    await title(page, 'Screen 22')
    await press(page, 'Reclaim it')
    await page.getByLabel('A clock rings after').selectOption('1 minute')
    await press(page, 'The remover is on')
    const clock = page.getByRole('complementary', { name: 'Your clocks' })
    await clock.getByText('Remover, screen 22').waitFor()
    expect(await violations(page)).toEqual([])
    await page.goto(`${server.url}/day`) // another page, loaded anew
    await clock.getByText('Remover, screen 22').waitFor()
    await page.getByRole('heading', { name: 'Clocks that run' }).waitFor()

    const other = await browser.newContext({ ...LAPTOP, bypassCSP: true })
    const laptop = await other.newPage()
    laptop.setDefaultTimeout(PATIENCE_MS)
    await laptop.goto(`${server.url}/people/sign-in#${dov}`)
    const there = laptop.getByRole('complementary', { name: 'Your clocks' })
    await there.getByText('Remover, screen 22').waitFor()

    await context.setOffline(true)
    await page.clock.fastForward(62_000)
    await clock.getByText('Rinse it now').waitFor()
    expect(await shaken()).toContainEqual([300, 150, 300, 150, 300])
    await context.setOffline(false)
    await clock.getByRole('button', { name: 'Screen 22 is rinsed' }).click()
    await clock.waitFor({ state: 'detached' })
    await there.waitFor({ state: 'detached' })
    await Promise.all([context.close(), other.close()])
  },
  PATIENCE_MS,
)

async function told<Answer>(path: string, body: object): Promise<Answer> {
  const answer = await postJson(`${server.url}${path}`, body)
  if (!answer.ok) throw new Error(await answer.text())
  return (await answer.json()) as Answer
}

/** What the code on a label says, by a reader of its own, from the picture of the sheet. */
async function codeIn(pdf: Uint8Array): Promise<string> {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const wasmBinary = (await readFile(wasm)).buffer as ArrayBuffer
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true })
  const size = { widthPx: 930, heightPx: 1315 }
  const { grey } = await byPdfium(pdf, size)
  const png = await sharp(grey, {
    raw: { width: size.widthPx, height: size.heightPx, channels: 1 },
  })
    .png()
    .toBuffer()
  const [code] = await readBarcodes(new Uint8Array(png), { formats: ['QRCode'] })
  return code?.text ?? ''
}
