import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { opened } from '../server/shopRoom.ts'
import { beyondPx, LAPTOP, lowTargets, PHONE, violations } from './access.testing.ts'
import { openBrowser } from './browser.testing.ts'
import { type RealServer, startOwnYellowroom } from './realServer.testing.ts'

const PATIENCE_MS = 240_000

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

/** What a state of a page must keep, whatever it shows. */
async function holds(page: Page, state: string): Promise<void> {
  expect([state, await violations(page)]).toEqual([state, []])
  expect([state, await beyondPx(page)]).toEqual([state, 0])
  expect([state, await lowTargets(page)]).toEqual([state, []])
}

test(
  'a print is carried from its name to a closed edition by pressing what is next',
  async () => {
    const context = await browser.newContext({ ...PHONE, bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    const press = (name: string | RegExp): Promise<void> =>
      page.getByRole('button', { name }).click()
    const next = (says: string): Promise<void> => page.getByText(says).waitFor()
    await page.goto(`${server.url}/tickets`)
    await press('Open a ticket')
    await press('Open the ticket')
    await page.getByText('Write what the print is called.').waitFor()
    await holds(page, 'a ticket that says too little')
    await page.getByLabel('The print is called').fill('Night ferry')
    await page.getByLabel('Ink 1', { exact: true }).selectOption('new')
    await page.getByLabel('Name of ink 1').fill('leaf green')
    await page.getByLabel('Its colour on paper (ink 1)').fill('#2f7d3a')
    await page.getByLabel('Prints wanted').fill('2')
    await press('Open the ticket')

    await page.getByRole('heading', { name: 'Night ferry' }).waitFor()
    await next('Next: leaf green, artwork.')
    await holds(page, 'a fresh ticket')
    await press('Count the shelf')
    await page.getByLabel('The shop’s money').selectOption({ label: 'Euro (EUR)' })
    await next('Prices are in Euro (EUR) from now on.')
    await page.getByLabel('Ink', { exact: true }).selectOption('leaf green')
    await page.getByLabel('Left of it').fill('640')
    await press('Count the ink')
    await next('leaf green is counted.')
    await page.getByLabel('Paper', { exact: true }).selectOption('a new paper')
    await page.getByLabel('The paper is called').fill('thin card')
    await page.getByLabel('A bought sheet, wide').fill('19.7 in')
    await page.getByLabel('and high').fill('70 cm')
    await page.getByLabel('Sheets of it').fill('3')
    await press('Count the paper')
    await next('thin card is counted.')
    await press('Count the shelf')
    await press('Change the plan')
    await page.getByLabel('Paper', { exact: true }).selectOption('thin card')
    await page.getByLabel('Proofs beside the edition').fill('one')
    await press('Keep the plan')
    await next('Write a whole number, 0 or more.')
    await page.getByLabel('Proofs beside the edition').fill('1')
    await press('Keep the plan')
    // 3 through one layer that spoils one in twenty: 3 / 0.95 = 3.2; three are there
    await page.getByText('Begin with 4 sheets: 4 of thin card, 1 to buy.').click()
    await next('3 are wanted, and about one in 20 is spoiled')
    await press('Check a colour')
    await page.getByLabel('Which layer').selectOption('leaf green')
    for (const [channel, value] of [
      ['L', '12'],
      ['a', '40'],
      ['b', '-7'],
    ] as const) {
      await page.getByLabel(channel, { exact: true }).fill(value)
    }
    await holds(page, 'a plan that opens to why, and a colour to check')
    await page.getByLabel('b', { exact: true }).fill('four')
    await press('Check it')
    await next('b must be a number from -160 to 160, like -4.5. You wrote “four”.')
    await page.getByLabel('b', { exact: true }).fill('-7')
    await press('Check it')
    await next('Leaf green differs from its proof')
    // Two prints are wanted no more, but four; the ticket says so from then on.
    await press('Change the ticket')
    await page.getByLabel('Prints wanted').fill('4')
    await holds(page, 'a ticket that is changed')
    await press('Keep it so')
    // 5 through one layer: 5 / 0.95 = 5.3
    await next('Begin with 6 sheets: 6 of thin card, 3 to buy.')
    await press('The artwork is done')
    await press('The film is done')
    await press('Choose a screen for leaf green')
    await press(/^Take /)
    await press('Leaf green’s screen is coated and dry')
    await next('Do not look at the lamp.')
    await press('It is exposed')
    await next('Keep water away from sockets')
    // The ground came off: back to be coated, and down again.
    await press('Change leaf green')
    await page.getByLabel('It goes back to').selectOption('screen')
    await press('Send it back')
    await page.getByText('Write why, in a few words.').waitFor()
    await page.getByLabel('Why').fill('the ground came off')
    await holds(page, 'a layer that goes back')
    await press('Send it back')
    await next('Next: leaf green, screen.')
    await press('Leaf green’s screen is coated and dry')
    await press('It is exposed')
    await press('It is open and dry')

    await press('Five more')
    await page.getByText('5 pulled').waitFor()
    await press('One more pulled')
    await page.getByText('6 pulled').waitFor()
    await press('One is spoiled')
    await page.getByLabel('What spoiled it').fill('a crease')
    await press('Take it out')
    await page.getByText('6 pulled, one spoiled: a crease').waitFor()
    await press('All of it is printed')
    await press('Leaf green’s screen is reclaimed')
    await page.getByText('All layers are printed').waitFor()

    await press('Edition log')
    await press(/^All \d+ entries/)
    expect(await page.getByText('back to screen: the ground came off').count()).toBe(1)
    for (const name of ['One numbered', 'One numbered', 'One artist’s proof']) await press(name)
    await next('5 came through, 2 numbered, 1 artist’s proof, 2 not given out yet.')
    await press('Note signatures')
    await page.getByLabel('Signed by').fill('Demo Tam')
    await holds(page, 'an edition that is given out')
    await press('They are signed')
    await next('3 signed, 2 not given out yet.')
    await press('Close the edition')
    await page.getByLabel('Numbered prints').fill('6')
    await press('Close it')
    await page.getByText('The card gives out 7 prints, and 5 came through').waitFor()
    await holds(page, 'a card that gives out too many')
    await page.getByLabel('Numbered prints').fill('2')
    await press('Close it')
    await page.getByText('Edition of 2, 1 artist’s proof, 0 proofs.').waitFor()
    await holds(page, 'a closed edition')
    await context.close()
  },
  PATIENCE_MS,
)

test(
  'what was told while the shop was out of reach is told again once, and the list shows it at night',
  async () => {
    const made = await fetch(`${server.url}${PATHS.tickets}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name: 'Leaf', inks: [{ name: 'leaf green', colour: '#2f7d3a' }] }),
    })
    const { id } = (await made.json()) as { id: string }
    const context = await browser.newContext({ ...LAPTOP, colorScheme: 'dark', bypassCSP: true })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENCE_MS)
    await page.goto(`${server.url}${PATHS.tickets.replace('/api', '')}/${id}`)
    const act = page.getByRole('button', { name: 'The artwork is done' })
    await act.waitFor()
    // It arrives, and the answer is lost on the way back.
    await page.route('**/acts', async (route) => {
      await route.fetch()
      await route.abort()
    })
    await act.click()
    await page.getByText('What you wrote is kept here').waitFor()
    await page.unroute('**/acts')
    await act.click()
    await page.getByText('Next: leaf green, film.').waitFor()
    await page.getByRole('button', { name: 'Edition log' }).click()
    expect(await page.getByText('artwork done').count()).toBe(1)
    await holds(page, 'a ticket at night')
    await page.getByRole('link', { name: 'Tickets' }).click()
    await page.getByText('Next: leaf green, film').waitFor()
    await page.getByRole('button', { name: 'Ask for a film' }).click()
    await page.getByLabel('It is for layer').selectOption('L1-L, leaf green')
    await page.getByRole('button', { name: 'Put it in the queue' }).click()
    await page.getByRole('button', { name: 'It is made' }).click()
    await page.getByRole('button', { name: 'Check its scale' }).click()
    await page.getByLabel('It measures', { exact: true }).fill('99')
    await page.getByLabel('That way should be').fill('150')
    await page.getByRole('button', { name: 'Note it' }).click()
    await page.getByText('1 in 100 too small').waitFor()
    await page.getByRole('button', { name: 'Measure it again' }).click()
    await page.getByLabel('It measures', { exact: true }).fill('100')
    await page.getByLabel('That way should be').fill('150')
    await page.getByLabel('That way it measures').fill('148.5')
    await page.getByRole('button', { name: 'Note it' }).click()
    await page.getByText('stretched along by 1 in 100').waitFor()
    await holds(page, 'the list at night')
    await context.close()
  },
  PATIENCE_MS,
)
