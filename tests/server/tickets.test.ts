import { afterAll, beforeAll, expect, test } from 'vitest'
import { type FilmQueue, filmQueue } from '../../src/api/filmQueue.ts'
import {
  filmQueueActsPath,
  PATHS,
  planColourPath,
  planPath,
  ticketActsPath,
  ticketPath,
} from '../../src/api/paths.ts'
import { type PrintPlanTold, printPlan, stock } from '../../src/api/printPlan.ts'
import { screenChoice } from '../../src/api/screenChoice.ts'
import { type Ticket, type TicketAct, ticket, ticketList } from '../../src/api/tickets.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { byPdfjs } from '../../src/formats/pdfReaders.testing.ts'
import { type Room, room } from './room.ts'

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const list = async () => ticketList.parse(await (await shop.ask(PATHS.tickets)).json())
const acted = async (id: string, act: TicketAct): Promise<Ticket> => {
  const answer = await post(ticketActsPath(id), act)
  if (answer.status !== 200) throw new Error(await answer.text())
  return ticket.parse(await answer.json())
}
const refused = async (id: string, act: unknown): Promise<string> => {
  const answer = await post(ticketActsPath(id), act)
  const { error } = (await answer.json()) as { error: { message: string } }
  return `${answer.status} ${error.message}`
}
let count = 0
const key = (): string => `key-of-test-${++count}`

beforeAll(async () => {
  shop = await room()
  expect((await post(PATHS.demoShop, {})).status).toBe(201)
})
afterAll(() => shop.close())

test('the demo ticket stands with its three layers, and says what is next', async () => {
  const { tickets } = await list()
  expect(tickets).toMatchObject([
    { code: 'K4', name: 'Kettle and three pears', editionCount: 20, next: { ink: 'black' } },
  ])
  const id = tickets[0]?.id ?? ''
  const whole = ticket.parse(await (await shop.ask(ticketPath(id))).json())
  expect(whole.layers.map(({ shortName }) => shortName)).toEqual(['K4-P', 'K4-W', 'K4-B'])
  expect(whole.layers[0]).toMatchObject({ at: null, pulled: 25, good: 24 })
  expect(whole.layers[1]).toMatchObject({ at: 'reclaim', screen: { name: 'screen 8' } })
  expect(whole.layers[2]).toMatchObject({ ink: { name: 'black' }, film: { status: 'waiting' } })
  expect(whole.next?.who).toMatchObject({ anybody: true, says: 'Anybody can do it.' })
  // 20 and 2 proofs through three layers of which each spoils one in twenty: 22 / 0.95³ = 25.7
  expect(whole).toMatchObject({ demo: true, sheetsToPrepare: 26 })
})

test('a ticket goes from its artwork to a closed edition, and every number agrees', async () => {
  const { inks, people } = await list()
  const ink = (wanted: string) => inks.find(({ name }) => name === wanted)?.id
  const asked = {
    name: 'Night ferry',
    inks: [ink('warm grey'), ink('black')],
    owner: people[0]?.id,
    editionCount: 3,
  }
  const made = await post(PATHS.tickets, asked)
  expect(made.status).toBe(201)
  const opened = ticket.parse(await made.json())
  expect(opened).toMatchObject({ code: 'N1', owner: people[0]?.name, next: { station: 'artwork' } })
  const { id } = opened
  const [first, second] = opened.layers.map((layer) => layer.id)
  if (first === undefined || second === undefined) throw new Error('no layers')
  expect(opened.layers.map(({ shortName }) => shortName)).toEqual(['N1-W', 'N1-B'])

  // Down to the sink, back to the screen, and down again.
  await acted(id, { kind: 'done', key: key(), layer: first, station: 'light' })
  const why = 'the ground came off'
  const failed = await acted(id, { kind: 'back', key: key(), layer: first, station: 'screen', why })
  expect(failed.next).toMatchObject({ station: 'screen', place: 1 })
  expect(failed.layers[0]?.road[2]).toBe('make again')
  await acted(id, { kind: 'done', key: key(), layer: first, station: 'water' })

  const pull = { kind: 'pulled', key: key(), layer: first, sheets: 5 } as const
  await acted(id, pull)
  const twice = await acted(id, pull) // the answer to the first was lost on the way
  expect(twice.layers[0]).toMatchObject({ pulled: 5, spoiled: 0, good: 5 })
  await acted(id, { kind: 'done', key: key(), layer: first, station: 'reclaim' })

  await acted(id, { kind: 'done', key: key(), layer: second, station: 'water' })
  await acted(id, { kind: 'pulled', key: key(), layer: second, sheets: 6 })
  const counted = await acted(id, { kind: 'pulled', key: key(), layer: second, sheets: 1 })
  const entry = counted.log[0]?.id ?? ''
  await acted(id, { kind: 'take back', entry })
  const crease = { key: key(), layer: second, sheets: 1, why: 'a crease' }
  const spoiled = await acted(id, { kind: 'spoiled', ...crease })
  expect(spoiled.layers[1]).toMatchObject({
    pulled: 6,
    good: 5,
    spoils: [{ sheets: 1, why: 'a crease' }],
  })
  expect(spoiled.log.map(({ says }) => says).slice(0, 2)).toEqual([
    '1 spoiled: a crease',
    '6 pulled',
  ])
  const card = { kind: 'close', numbered: 4, artistProofs: 1, proofs: 1 } as const
  expect(await refused(id, card)).toMatch(/^422 The card gives out 6 prints, and 5 came through/)

  // Two at the table give out prints at once, each tap under its own key: none is lost, none is given twice.
  const give = (sheets: number, as = 'numbered') => ({ kind: 'edition', key: key(), as, sheets })
  const taps = [give(1), give(1), give(1), give(1, 'artist proof')]
  const answers = await Promise.all([...taps, ...taps].map((act) => post(ticketActsPath(id), act)))
  expect(answers.map(({ status }) => status)).toEqual(taps.concat(taps).map(() => 200))
  const given = ticket.parse(await (await shop.ask(ticketPath(id))).json())
  expect(given.given).toEqual({ numbered: 3, artistProofs: 1, proofs: 0, signed: 0, left: 1 })
  expect(await refused(id, give(2, 'proof'))).toMatch(/^422 5 sheets came through .* 1 of them/)
  const last = await Promise.all([1, 2, 3].map(() => post(ticketActsPath(id), give(1, 'proof'))))
  expect(last.filter(({ status }) => status === 200)).toHaveLength(1)
  expect(last.filter(({ status }) => status === 422)).toHaveLength(2)
  await acted(id, { kind: 'edition', key: key(), as: 'signed', sheets: 4, by: 'Tamsin' })
  const told = ticket.parse(await (await shop.ask(ticketPath(id))).json())
  expect(told.log.slice(0, 2)).toMatchObject([
    { layer: 'N1', says: '4 signed by Tamsin' },
    { layer: 'N1', says: '1 proof' },
  ])
  await acted(id, { kind: 'take back', entry: told.log[1]?.id ?? '' })
  await acted(id, { kind: 'done', key: key(), layer: second, station: 'reclaim' })
  const closed = await acted(id, { ...card, numbered: 3, archivePlace: 'drawer 3' })
  expect(closed).toMatchObject({
    next: null,
    edition: { numbered: 3, artistProofs: 1, archivePlace: 'drawer 3' },
  })
  expect(closed.closedOn).not.toBeNull()
  expect((await list()).tickets.map(({ code }) => code)).toEqual(['K4', 'N1'])
  expect((await acted(id, { kind: 'open again' })).edition).toBeNull()
})

test('a film that is read brings its layer to the screen', async () => {
  const id = (await list()).tickets.find(({ code }) => code === 'N1')?.id ?? ''
  const black = (await list()).inks.find(({ name }) => name === 'black')
  const added = await acted(id, { kind: 'layer', ink: black?.id ?? '' })
  const third = added.layers[2]
  expect(third).toMatchObject({ place: 3, shortName: 'N1-BL', at: 'artwork' })
  const film = added.films[0]?.id ?? ''
  const with1 = await acted(id, { kind: 'film', layer: third?.id ?? '', film })
  expect(with1.layers[2]).toMatchObject({ film: { id: film }, at: 'film' })
})

test('oracle css-color4: an ink that is new to the shop is kept with its colour, once', async () => {
  const green = { name: 'leaf green', colour: '#2f7d3a' }
  const made = await post(PATHS.tickets, {
    name: 'Leaf',
    inks: [green, { ...green, name: 'Leaf Green' }],
  })
  expect(ticket.parse(await made.json()).layers).toMatchObject([
    { shortName: 'L1-L', ink: { name: 'leaf green' } },
    { shortName: 'L1-LE', ink: { name: 'leaf green' } },
  ])
  const { inks } = await list()
  expect(inks.filter(({ name }) => /leaf/i.test(name))).toHaveLength(1)
  // Pure sRGB red under D50 by the CSS Color Module: lab(54.29 80.81 69.89).
  const red = { name: 'signal red', colour: '#ff0000' }
  await post(PATHS.tickets, { name: 'Red', inks: [red] })
  const [l = 0, a = 0, b = 0] = (await list()).inks.find(({ name }) => name === red.name)?.lab ?? []
  near(l, 54.29, { within: 0.05, because: 'two decimals are published' })
  near(a, 80.81, { within: 0.1, because: 'two decimals are published' })
  near(b, 69.89, { within: 0.1, because: 'two decimals are published' })
})

test('what cannot be is said in a sentence, and nothing is taken down', async () => {
  const { tickets } = await list()
  const at = (wanted: string) => tickets.find(({ code }) => code === wanted)
  const id = at('K4')?.id ?? ''
  const layer = at('N1')?.next?.layer ?? ''
  const done = { kind: 'done', key: key(), layer, station: 'film' }
  expect(await refused(id, done)).toBe(
    '404 There is no such layer on ticket K4: open it again and choose one.',
  )
  const later = new Date(Date.now() + 3600_000).toISOString()
  const own = at('K4')?.next?.layer ?? ''
  expect(await refused(id, { ...done, layer: own, happenedAt: later })).toMatch(/^422 .*clock/)
  expect(await refused(id, { ...done, station: 'oven' })).toMatch(/^422 /)
  expect(await refused(id, { kind: 'pulled', key: key(), layer: own, sheets: 0 })).toMatch(/^422 /)
  expect(await refused('nobody', done)).toMatch(/^404 There is no such ticket/)
  expect((await post(PATHS.tickets, { name: 'x', inks: ['nobody'] })).status).toBe(404)
})

test('screens for a layer are ranked with reasons; the one that is chosen is on it, and on no other', async () => {
  const { tickets } = await list()
  const kettle = tickets.find(({ code }) => code === 'K4')?.id ?? ''
  const before = ticket.parse(await (await shop.ask(ticketPath(kettle))).json())
  const [layer] = before.layers.filter(({ at }) => at !== null)
  const asked = async (question: string) => {
    const answer = await shop.ask(`${PATHS.screenChoice}?layer=${layer?.id}${question}`)
    return screenChoice.parse(await answer.json()).screens
  }
  const screens = await asked('&rulingPerCm=26')
  const [first] = screens
  // 26 lines want 97.5 threads a cm as usual: of the coated ones 120-34 alone has them
  expect(first).toMatchObject({ name: 'screen 21', fabric: '120-34 yellow', when: 'now' })
  expect(first?.reasons.find(({ about }) => about === 'tone')?.says).toBe('yes')
  expect(screens.at(-1)?.when).toBe('not')
  expect(screens.find(({ name }) => name === 'screen 23')?.reasons[0]?.text).toBe('It is torn.')
  const choose = (of: string | undefined, screen: string | null | undefined): TicketAct => ({
    kind: 'screen',
    layer: of ?? '',
    screen: screen ?? null,
  })
  const given = await acted(kettle, choose(layer?.id, first?.id))
  expect(given.layers.find(({ id }) => id === layer?.id)?.screen?.name).toBe('screen 21')
  expect((await asked('')).filter(({ chosen }) => chosen).map(({ name }) => name)).toEqual([
    'screen 21',
  ])
  const made = await post(PATHS.tickets, { name: 'Another', inks: [before.inks[0]?.id] })
  const other = ticket.parse(await made.json())
  const taken = choose(other.layers[0]?.id, first?.id)
  expect(await refused(other.id, taken)).toContain(`409 Screen 21 is on layer ${layer?.shortName}`)
  expect((await shop.ask(PATHS.screenChoice)).status).toBe(422)
  await acted(kettle, choose(layer?.id, null))
  expect((await acted(other.id, taken)).layers[0]?.screen?.name).toBe('screen 21')
})

test('a print plan is told, settled and settled anew, and the shelf is counted', async () => {
  const id = (await list()).tickets.find(({ code }) => code === 'K4')?.id ?? ''
  const plan = printPlan.parse(await (await shop.ask(planPath(id))).json())
  // 20 and 2 proofs through three layers that spoil one in twenty each: 22 / 0.95³ = 25.7
  expect(plan).toMatchObject({ wanted: 22, toPull: 26, order: { isAsGiven: true } })
  // four of 250 × 350 from each of 500 × 700, nine of them there
  expect(plan.paper).toMatchObject({ fromOne: 4, wanted: 7, toBuy: 0 })
  expect(plan.layers[1]?.checks).toMatchObject([{ how: 'measured', verdict: 'differs' }])
  const settled = { ...plan.asked, proofs: 0, shares: [{ name: 'x', sdMm: 0.2, shape: 'bell' }] }
  const changed = printPlan.parse(await (await post(planPath(id), settled)).json())
  near(changed.register.trapMm, 0.392, { within: 1e-9, because: '1.96 times 0.2' })
  expect(changed.wanted).toBe(20)
  // the same plan for who reads in inches: 3 mm are 0.12 in, and money is the shop's
  expect(changed.layers[0]?.line.says).toContain('3 mm off the paper')
  const inches = await (await shop.ask(`${planPath(id)}?units=imperial`)).json()
  const { layers, lines, currency } = printPlan.parse(inches)
  expect(layers[0]?.line.says).toContain('0.12 in off the paper')
  expect(lines.at(-1)?.says).toMatch(/^A print costs €\d+[.]\d\d/)
  expect(currency).toBe('EUR')
  expect((await shop.ask(`${planPath(id)}?units=ells`)).status).toBe(422)
  expect((await post(PATHS.stock, { kind: 'currency', currency: 'XQX' })).status).toBe(422)
  const yen = stock.parse(
    await (await post(PATHS.stock, { kind: 'currency', currency: 'JPY' })).json(),
  )
  expect(yen.currency).toBe('JPY')
  expect((await post(planPath(id), { potCm3: -1 })).status).toBe(422)
  expect((await post(planPath(id), { paper: 'nobody' })).status).toBe(404)

  const paper = { kind: 'paper', name: 'thin white', widthMm: 500, heightMm: 650, sheets: 4 }
  const shelf = stock.parse(
    await (await post(PATHS.stock, { ...paper, pricePerSheet: null })).json(),
  )
  const added = shelf.papers.find(({ name }) => name === 'thin white')
  const ink = shelf.inks.find(({ name }) => name === 'black')?.id ?? ''
  await post(PATHS.stock, { ...paper, paper: added?.id, sheets: 3, pricePerSheet: 2 })
  await post(PATHS.stock, { kind: 'ink', ink, grams: 250, pricePerKg: 25 })
  const counted = stock.parse(await (await shop.ask(PATHS.stock)).json())
  expect(counted.papers.find(({ name }) => name === 'thin white')).toMatchObject({ sheets: 3 })
  expect(counted.inks.find(({ name }) => name === 'black')).toMatchObject({ grams: 250 })
  expect((await post(PATHS.stock, { ...paper, pricePerSheet: null })).status).toBe(409)
})

test('oracle grey-card: a colour is checked by readings and by a photo, each with its doubt', async () => {
  const id = (await list()).tickets.find(({ code }) => code === 'K4')?.id ?? ''
  const layer = printPlan.parse(await (await shop.ask(planPath(id))).json()).layers[2]?.id ?? ''
  const check = async (body: unknown) => {
    const answer = await post(planColourPath(id), body)
    if (answer.status !== 200) return `${answer.status} ${await answer.text()}`
    return printPlan.parse(await answer.json()).layers[2]?.checks ?? []
  }
  const readings = [
    [16.5, 0.2, -0.1],
    [16.1, -0.1, 0.3],
  ]
  expect(await check({ kind: 'measured', layer, readings })).toMatchObject([{ verdict: 'agrees' }])
  // a card lit as brightly as it is: what is seen beside it is what is there
  const card = [0.4616, 0.4616, 0.4616]
  const photo = { kind: 'photo', layer, patch: card, card, cardL: 49.5 }
  const [seen, ...before] = (await check(photo)) as PrintPlanTold['layers'][number]['checks']
  near(seen?.lab[0] ?? 0, 49.5, { within: 0.1, because: 'the card itself' })
  expect(seen?.doubtDeltaE).toBeGreaterThanOrEqual(8)
  expect(before).toHaveLength(1)
  expect(await check({ ...photo, card: [1, 1, 1] })).toMatch(/^422 .*burnt out/)
  expect(await check({ ...photo, layer: 'nobody' })).toMatch(/^404 /)
  expect(await check({ kind: 'take back', check: seen?.id })).toHaveLength(1)
})

test('a film is waited for, made, measured, put away and fetched; what is off says what to do', async () => {
  const queued = async (path: string, body: unknown): Promise<FilmQueue> => {
    const answer = await post(path, body)
    if (!answer.ok) throw new Error(await answer.text())
    return filmQueue.parse(await answer.json())
  }
  const empty = filmQueue.parse(await (await shop.ask(PATHS.filmQueue)).json())
  const asked = { key: key(), layer: empty.layers[0]?.id, person: empty.people[1]?.id }
  await queued(PATHS.filmQueue, asked)
  const { films } = await queued(PATHS.filmQueue, asked)
  expect(films).toHaveLength(empty.films.length + 1)
  const id = films.find(({ layer }) => layer?.id === asked.layer)?.id ?? ''
  const act = async (body: unknown) =>
    (await queued(filmQueueActsPath(id), body)).films.find((each) => each.id === id)
  expect(await act({ kind: 'made' })).toMatchObject({ madeOn: expect.any(String), scale: null })
  const off = await act({ kind: 'measured', barMm: 100, measuredMm: 94.1 })
  expect(off?.scale).toMatchObject({ is: 'off' })
  expect(off?.scale?.says.join(' ')).toContain('A4 and Letter were mixed up')
  expect(await act({ kind: 'again' })).toMatchObject({ madeOn: null, scale: null })
  const across = { barMm: 150, measuredMm: 148.5 }
  const pulled = await act({ kind: 'measured', barMm: 100, measuredMm: 100, across })
  expect(pulled?.scale?.says[0]).toMatch(
    /^Along it is true, across it 1 in 100 too short[.] It is stretched along by 1 in 100/,
  )
  const fine = await act({ kind: 'measured', barMm: 100, measuredMm: 100.2 })
  expect(fine).toMatchObject({ scale: { is: 'true', across: null } })
  expect(fine?.scale?.says.join(' ')).toContain('Across it nobody measured')
  expect(await act({ kind: 'lies', where: 'drawer 2' })).toMatchObject({ liesIn: 'drawer 2' })
  const paper = await shop.ask(PATHS.filmQueuePdf)
  const { view } = await byPdfjs(new Uint8Array(await paper.arrayBuffer()))
  near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'A4, by an independent reader' })
  expect(await act({ kind: 'fetched' })).toMatchObject({ left: { as: 'fetched' } })
  expect((await post(PATHS.filmQueue, { key: key() })).status).toBe(422)
  expect((await post(PATHS.filmQueue, { key: key(), layer: 'no' })).status).toBe(404)
  expect((await post(filmQueueActsPath('nobody'), { kind: 'made' })).status).toBe(404)
})
