import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { opened } from '../server/shopRoom.ts'
import { beyondPx, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000
const example = (name: string): string =>
  fileURLToPath(new URL(`../../docs/example/${name}`, import.meta.url))

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

async function open(path: string, scheme: 'light' | 'dark'): Promise<Page> {
  const context = await browser.newContext({ ...PHONE, colorScheme: scheme, bypassCSP: true })
  const page = await context.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  await page.goto(`${server.url}${path}`)
  return page
}

/** What a state of a page must keep, whatever it shows. */
async function holds(page: Page, state: string): Promise<void> {
  expect([state, await violations(page)]).toEqual([state, []])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
  // a file's field lies within its act, which is as high
  const low = (await lowTargets(page)).filter((target) => !target.includes('type="file"'))
  expect([state, low]).toEqual([state, []])
}

describe('a photo of a drawing', () => {
  test(
    'is read by corners that keys set, turned over, and forecast as a film',
    async () => {
      const page = await open('/photo', 'light')
      await page.getByText('never the exposure unit: do not look into its lamp').waitFor()
      await holds(page, 'before the photo')
      const mat = await page
        .getByRole('link', { name: /Fetch the reading mat/ })
        .getAttribute('href')
      expect((await page.request.get(`${server.url}${mat}`)).headers()['content-type']).toBe(
        'application/pdf',
      )
      await page.getByLabel('Choose a photo').setInputFiles(example('film.jpg'))
      await page.getByRole('heading', { name: 'Where does the sheet lie?' }).waitFor()
      expect(await page.getByRole('alert').textContent()).toContain('No reading mat is seen')
      await holds(page, 'no mat')

      // where the sheet lies in the example, as the command's own example says
      const places = [
        ['Top left corner', 105, 97],
        ['Top right corner', 1008, 92],
        ['Bottom right corner', 1012, 1459],
        ['Bottom left corner', 25, 1396],
      ] as const
      for (const [name, x, y] of places) await moveTo(page, name, { x, y })
      await page.getByLabel('Width of the sheet').fill('210')
      await page.getByLabel('Height of the sheet').fill('297')
      await page.getByLabel('Step wedge in the photo').selectOption('here')
      await moveTo(page, 'Clear end of the wedge', { x: 160, y: 1480 })
      await moveTo(page, 'Dark end of the wedge', { x: 854, y: 1527 })
      expect(await page.locator('.photo-glass').count()).toBe(1)
      await holds(page, 'corners set')
      await page.getByRole('button', { name: 'Read it' }).press('Enter')

      await page.getByRole('heading', { name: 'Does it read as it should print?' }).waitFor()
      await page.getByText('The film is 210 mm by 297 mm.').waitFor()
      await page.getByText('Measured by the step wedge in the picture').waitFor()
      await page
        .getByText('Looks like litho crayon or soft pencil; the photo cannot tell')
        .waitFor()
      await page.getByLabel('What the marks are made with').selectOption({ label: 'soft pencil' })
      await holds(page, 'read')
      await page.getByRole('button', { name: 'It is upside down: turn it round' }).press('Enter')
      await page.getByRole('button', { name: 'It is mirrored: turn it over' }).press('Enter')
      await page.getByRole('button', { name: 'It reads right: will it hold?' }).press('Enter')
      await page.waitForURL(/\/film\/[^/]+$/)
      await page.getByRole('heading', { name: 'Will it hold?' }).waitFor()
      await page.context().close()
    },
    PATIENCE_MS,
  )

  test(
    'a corner is dragged by a finger, and the glass shows what lies under it',
    async () => {
      const page = await open('/photo', 'dark')
      await page.getByLabel('Choose a photo').setInputFiles(example('film.jpg'))
      const corner = page.getByRole('button', { name: 'Top left corner' })
      await corner.waitFor()
      const before = await corner.boundingBox()
      const [x, y] = [(before?.x ?? 0) + 24, (before?.y ?? 0) + 24]
      await page.mouse.move(x, y)
      await page.mouse.down()
      await page.mouse.move(x + 40, y + 25, { steps: 4 })
      expect(await page.locator('.photo-glass').isVisible()).toBe(true)
      await page.mouse.up()
      const after = await corner.boundingBox()
      expect((after?.x ?? 0) - (before?.x ?? 0)).toBeCloseTo(40, 0)
      expect((after?.y ?? 0) - (before?.y ?? 0)).toBeCloseTo(25, 0)
      await holds(page, 'dragged, at night')
      await page.context().close()
    },
    PATIENCE_MS,
  )

  test(
    'what is no photo gets its sentence and another try',
    async () => {
      const page = await open('/photo', 'light')
      await page.getByLabel('Choose a photo').setInputFiles(example('setup.json'))
      await page.getByText('is a text; give a picture').waitFor()
      await holds(page, 'no photo')
      await page.getByRole('button', { name: 'Take another photo' }).click()
      await page.getByRole('heading', { name: 'Photograph your film' }).waitFor()
      await page.context().close()
    },
    PATIENCE_MS,
  )
})

describe('a photo of a washed-out screen', () => {
  test(
    'is laid over its film, walked through by keys, and remembered after a nod',
    async () => {
      const page = await open('/film', 'dark')
      await page.locator('.drop-choose input').setInputFiles(example('pencil.png'))
      await page.waitForURL(/\/film\/[^/]+$/)
      const film = page.url().split('/').at(-1) ?? ''
      await expect
        .poll(
          async () =>
            (await (await fetch(`${server.url}${PATHS.films}/${film}`)).json()) as unknown,
          { timeout: PATIENCE_MS },
        )
        .toMatchObject({ status: 'ready' })
      await page.goto(`${server.url}/check`)
      await page.getByText('Say first which film it was exposed with.').waitFor()
      await holds(page, 'no film yet')
      await page.getByLabel('Film of this screen').selectOption({ value: film })
      await page.getByLabel('Choose a photo').setInputFiles(example('screen.jpg'))
      await page.getByText('The photo shows it open, with places to spot out.').waitFor()
      await page.waitForFunction(() =>
        [...document.querySelectorAll<HTMLImageElement>('.check-stage img')].every(
          ({ complete, naturalWidth }) => complete && naturalWidth > 0,
        ),
      )
      await holds(page, 'checked, at night')

      // the example's faults, as its own drawing names them: a scratch and a pinhole
      const faults = page.locator('.fault')
      expect(await faults.locator('h2').allTextContents()).toEqual(['A scratch', 'A pinhole'])
      await faults.nth(1).locator('.fault-pair').press('ArrowRight')
      expect(await page.locator('.check-ring-focused b').allTextContents()).toEqual(['2'])
      await page.getByRole('button', { name: 'one over the other' }).press('Enter')
      expect(await page.locator('.check-film').isVisible()).toBe(true)
      await page.getByRole('button', { name: 'Spot it' }).press('Enter')
      await page.getByText('filler holds only on a dry screen').waitFor()
      await page.getByRole('button', { name: 'Write down how it came out' }).press('Enter')
      await page.getByLabel('Dose as it was set').fill('42')
      expect(await page.getByLabel('How it came out').inputValue()).toBe('good')
      await holds(page, 'about to be told')
      await page.getByRole('button', { name: 'Take it down' }).press('Enter')
      await page.getByText('Taken down').waitFor()
      const readings = (await (await fetch(`${server.url}${PATHS.readings}`)).json()) as {
        readings: readonly Readonly<{ kind: string; says: string }>[]
      }
      expect(readings.readings[0]).toMatchObject({ kind: 'outcome' })
      expect(readings.readings[0]?.says).toContain('42')
      await page.context().close()
    },
    PATIENCE_MS,
  )
})

/** Moves a handle to a place of the photo by its arrow keys alone, ten steps at a time where far. */
async function moveTo(
  page: Page,
  name: string,
  to: Readonly<{ x: number; y: number }>,
): Promise<void> {
  const handle = page.getByRole('button', { name, exact: true })
  await handle.focus()
  const photo = { widthPx: 1050, heightPx: 1550 }
  const step = 1550 / 2000
  const { x, y } = await handle.evaluate((element) => ({
    x: Number.parseFloat((element as HTMLElement).style.left),
    y: Number.parseFloat((element as HTMLElement).style.top),
  }))
  const far = [
    ['ArrowLeft', 'ArrowRight', to.x - (x * photo.widthPx) / 100],
    ['ArrowUp', 'ArrowDown', to.y - (y * photo.heightPx) / 100],
  ] as const
  for (const [back, on, px] of far) {
    const steps = Math.round(Math.abs(px) / step)
    const key = px < 0 ? back : on
    for (let done = 0; done < Math.floor(steps / 10); done += 1) await handle.press(`Shift+${key}`)
    for (let done = 0; done < steps % 10; done += 1) await handle.press(key)
  }
}
