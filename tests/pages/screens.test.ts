import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { PATHS } from '../../src/api/paths.ts'
import { byPdfium } from '../../src/formats/pdfReaders.testing.ts'
import { opened, postJson } from '../server/shopRoom.ts'
import { beyondPx, LAPTOP, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000
const PASSWORD = 'demo words of a lead'

let browser: Browser
let server: RealServer

beforeAll(async () => {
  ;[browser, server] = await Promise.all([openBrowser(), startOwnYellowroom()])
  await opened(server)
  await postJson(`${server.url}${PATHS.ownShop}`, { fabric: '90-48', colour: 'white' })
}, PATIENCE_MS)

afterAll(async () => {
  await browser.close()
  await server.stop()
})

/** What a state of a page must keep, whatever it shows. */
async function holds(page: Page, state: string): Promise<void> {
  expect([state, await violations(page)]).toEqual([state, []])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
  expect([state, await lowTargets(page)]).toEqual([state, []])
}

/** Where a label's code leads, as a phone's camera reads it off the sheet. */
async function scanned(pdf: Uint8Array): Promise<readonly string[]> {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const wasmBinary = (await readFile(wasm)).buffer as ArrayBuffer
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true })
  const [width, height] = [930, 1315]
  const { grey } = await byPdfium(pdf, { widthPx: width, heightPx: height })
  const data = new Uint8ClampedArray(4 * grey.length)
  grey.forEach((value, at) => data.set([value, value, value, 255], 4 * at))
  const picture = { data, width, height, colorSpace: 'srgb' } as ImageData
  return (await readBarcodes(picture, { formats: ['QRCode'] })).map(({ text }) => text)
}

test(
  'a class comes in, screens get tags and are coated for it, a scanned tag says whose; the shop is closed, and a card opens it',
  async () => {
    const context = await browser.newContext({ ...LAPTOP, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    const press = (name: string | RegExp, on = page): Promise<void> =>
      on.getByRole('button', { name, exact: typeof name === 'string' }).click()
    await page.goto(`${server.url}/people`)
    await page.getByText('This shop is open').waitFor()
    await press('A class list')
    await page
      .getByLabel('The class list')
      .fill('name,class\nAda Quill,Thursday\n,Thursday\nBo Fenn,Thursday')
    await press('Try it first')
    await page.getByText('Line 3: No name stands in this line.').waitFor()
    await holds(page, 'a class list that was tried')
    await press('Bring all 2 in')
    await page.getByRole('heading', { name: 'Thursday' }).waitFor()

    await page.goto(`${server.url}/screens?for=new`)
    await page.getByLabel('How many').fill('2')
    await page.getByLabel('Tension, if measured').fill('21,5')
    await holds(page, 'new tags')
    await press('Write them in')
    await page.getByRole('link', { name: 'Coat many at once' }).click()
    await page.getByLabel('For the class').selectOption('Thursday')
    await page.getByText('2 screens chosen').waitFor()
    await page.getByLabel('Kept until').fill('2031-03-06')
    await holds(page, 'coating for a class')
    await press('They are coated')
    await page.getByText('2 screens are coated').waitFor()

    const labels = await context.request.get(`${server.url}${PATHS.screenLabels}?tags=2`)
    const [address = ''] = await scanned(new Uint8Array(await labels.body()))
    expect(address).toBe(`${server.url}/screens/2`)
    const pocket = await browser.newContext({ ...PHONE, colorScheme: 'dark', bypassCSP: true })
    const phone = await pocket.newPage()
    phone.setDefaultTimeout(PATIENCE_MS)
    await phone.goto(address)
    await phone.getByText('Ada Quill’s. Coated.').waitFor()
    await phone.getByText('Next: let it dry.').waitFor()
    await press('Change something', phone)
    await phone.getByLabel('Place in the rack').fill('b3')
    await press('Keep it', phone)
    await phone.getByText('rack B, slot 3').waitFor()
    await holds(phone, 'a screen on a phone at night')

    await page.goto(`${server.url}/people`)
    await press('Somebody new')
    await page.getByLabel('Name').fill('Lea Ward')
    await page.getByLabel('Role').selectOption('lead')
    await press('Write them in')
    await press('Cards to sign in with')
    await page.getByLabel('For').selectOption({ label: 'Ada Quill' })
    await press('Make the cards')
    const code = (await page.locator('.cards strong').textContent()) ?? ''
    await press('Change Lea Ward')
    await page.getByLabel('Password, at least ten letters').fill(PASSWORD)
    await holds(page, 'somebody to be settled')
    await press('Set the password')
    // who closes the shop is signed in, and comes back by the password
    await page.getByText('This shop is closed').waitFor()
    await page.getByRole('link', { name: 'Lea Ward', exact: true }).click()
    await press('Sign out on this device')
    await page.getByLabel('The code on your card').waitFor()
    await page.goto(`${server.url}/people`)
    await page.getByRole('heading', { name: 'Who are you?' }).waitFor()
    await press('I have a password')
    await page.getByLabel('Your name').fill('Lea Ward')
    await page.getByLabel('Password').fill(PASSWORD)
    await press('Sign in')
    await page.getByText('This shop is closed').waitFor()

    await phone.goto(`${server.url}/screens/2`)
    await phone.getByLabel('The code on your card').fill('000-000')
    await press('Sign in', phone)
    await phone.getByText('No card of this shop has that code').waitFor()
    await holds(phone, 'a code that nobody has')
    await phone.getByLabel('The code on your card').fill(code)
    await press('Sign in', phone)
    await phone.getByText('Yours, Ada. Coated.').waitFor()
    await phone.goto(`${server.url}/people`)
    await phone.getByText('This takes a technician').waitFor()
    await phone.goto(`${server.url}/bench?medium=soft+pencil`)
    await phone.getByText(/^Nobody has shown you .*: ask Lea Ward/).waitFor()
    await pocket.close()

    await page.goto(`${server.url}/screens?for=reclaim`)
    await page.getByLabel('On', { exact: true }).fill('2031-03-20')
    await page.getByRole('heading', { name: 'Ada Quill owes one' }).waitFor()
    await holds(page, 'reclaim day')
    await context.close()
  },
  PATIENCE_MS,
)
