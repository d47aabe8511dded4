import { afterAll, beforeAll, expect, test } from 'vitest'
import { glassMarkPath, PATHS } from '../../src/api/paths.ts'
import { glassTold, place, placeCheck, placementKept, screensOnGlass } from '../../src/api/place.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { byPdfjs } from '../../src/formats/pdfReaders.testing.ts'
import { type PlaceShop, placeShop } from './placeShop.ts'

let shop: PlaceShop
let ids: PlaceShop['ids']
const ask = async (path: string, init?: RequestInit): Promise<Response> =>
  shop.app.request(path, init)
const send = (path: string, body: unknown, method = 'POST'): Promise<Response> =>
  ask(path, { method, headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
const refused = async (answer: Promise<Response>): Promise<string> => {
  const response = await answer
  const { error } = (await response.json()) as { error: { message: string } }
  return `${response.status} ${error.message}`
}
const placed = async (query: Readonly<Record<string, string>>) => {
  const answer = await ask(`${PATHS.place}?${new URLSearchParams(query).toString()}`)
  if (answer.status !== 200) throw new Error(await answer.text())
  return place.parse(await answer.json())
}

beforeAll(async () => {
  shop = await placeShop()
  ids = shop.ids
})
afterAll(() => shop.close())

test('a film is laid where it is best, and what is on the glass is kept clear of', async () => {
  const query = { films: ids['sheet'] ?? '', screen: '14', frameMm: '140' }
  const asked = await placed(query)
  expect(asked.screen).toMatchObject({ name: '14', outside: { widthMm: 580, measured: true } })
  // in the middle of the glass: (1200 - 580) / 2, (900 - 780) / 2
  expect(asked.onGlass).toMatchObject({ xMm: 310, yMm: 60, turned: false })
  expect(asked.best).toMatchObject({ verdict: 'fits', proved: true })
  near(asked.best?.films[0]?.xMm ?? 0, 145, { within: 1e-6, because: '(500 - 210) / 2' })
  expect(await placed({ ...query, frameMm: '150' })).toMatchObject({
    best: { verdict: 'does not fit', worst: { rule: 'clearance to the frame' } },
  })
  // A scratch under where it lay: inside the frame from 220 to 230 across.
  const scratch = {
    unit: ids['unit'],
    what: 'scratch',
    xMm: 570,
    yMm: 300,
    widthMm: 10,
    heightMm: 200,
  }
  const made = glassTold.parse(await (await send(PATHS.glassMarks, scratch)).json())
  const around = await placed({ ...query, frameMm: '50' })
  expect(around.best?.verdict).toBe('fits')
  const x = around.best?.films[0]?.xMm ?? 0
  expect(x >= 230 && x + 210 <= 450).toBe(true)
  const gone = await ask(glassMarkPath(made.glass.marks[0]?.id ?? ''), { method: 'DELETE' })
  expect(glassTold.parse(await gone.json()).glass.marks).toEqual([])
})

test('films laid by hand are held against each rule, with the light and what a ruler shows', async () => {
  const laid = {
    screen: ids['14'],
    films: [
      { film: ids['sheet'], xMm: 100, yMm: 250, turned: false },
      { film: ids['half'], xMm: 330, yMm: 30, turned: true },
    ],
    clearance: { frameMm: 90, betweenMm: 30 },
    onGlass: { unit: ids['unit'], xMm: 310, yMm: 60, turned: false },
  }
  const check = placeCheck.parse(await (await send(PATHS.placeCheck, laid)).json())
  expect(check.verdict).toBe('does not fit')
  expect(check.rules).toMatchObject([
    // turned it is 148 wide: 500 - 330 - 148 = 22; 30 to the back
    { rule: 'clearance to the frame', leastMm: 22, shortMm: 68, films: [ids['half']] },
    // corners: 330 - 310 across, 250 - 240 down
    {
      rule: 'clearance between films',
      leastMm: Math.hypot(20, 10),
      films: [ids['sheet'], ids['half']],
    },
  ])
  const left = check.dimensions.find(({ film, side }) => film === ids['sheet'] && side === 'left')
  expect(left).toMatchObject({ lengthMm: 100, reaches: 'frame' })
  // The light falls by 10^-0.15 over 1200 mm, from the left: marks reach from 450 to 828 mm on the glass.
  const share = (xMm: number): number => 10 ** ((-0.15 * (xMm - 600)) / 1200)
  near(check.light?.most ?? 0, share(310 + 40 + 100), {
    within: 1e-6,
    because: 'a plane through three',
  })
  near(check.light?.least ?? 0, share(310 + 40 + 478), {
    within: 1e-6,
    because: 'a plane through three',
  })
})

test('a placement is kept, and its papers are true PDF pages', async () => {
  const films = [{ film: ids['sheet'], xMm: 140, yMm: 190, turned: false }]
  const onGlass = { unit: ids['unit'], xMm: 300, yMm: 50, turned: false }
  const kept = await send(PATHS.place, { screen: ids['15'], films, onGlass, laid: true })
  expect(kept.status).toBe(201)
  expect(placementKept.parse(await kept.json()).placement).toMatchObject({
    films,
    laidOn: '2026-11-28',
  })
  const again = await placed({ films: ids['sheet'] ?? '', screen: ids['15'] ?? '' })
  expect(again).toMatchObject({ kept: { films, onGlass }, onGlass })
  expect(
    (await placed({ films: `${ids['sheet']},${ids['half']}`, screen: ids['15'] ?? '' })).kept,
  ).toBeNull()
  for (const [path, pages] of [
    [PATHS.placePlan, 1],
    [PATHS.placeTemplate, 10],
  ] as const) {
    const paper = await ask(`${path}?screen=${ids['15']}&laid=${ids['sheet']}:140:190&paper=a4`)
    expect(paper.headers.get('content-type')).toBe('application/pdf')
    expect((await byPdfjs(new Uint8Array(await paper.arrayBuffer()))).pages).toBe(pages)
  }
})

test('two screens lie side by side on the glass, three do not', async () => {
  const of = async (tags: readonly string[]) => {
    const answer = await ask(
      `${PATHS.placeScreens}?screens=${tags.map((tag) => ids[tag]).join(',')}`,
    )
    return screensOnGlass.parse(await answer.json())
  }
  const two = await of(['14', '15'])
  expect(two.best.verdict).toBe('fits')
  const [one, other] = two.best.screens
  expect(Math.abs((one?.xMm ?? 0) - (other?.xMm ?? 0))).toBeGreaterThanOrEqual(580)
  expect((await of(['14', '15', '16'])).best.verdict).toBe('does not fit')
})

test('what cannot be is said in a sentence', async () => {
  const screen = ids['14'] ?? ''
  const huge = await placed({ films: ids['poster'] ?? '', screen })
  expect(huge.best).toMatchObject({ verdict: 'does not fit', proved: true })
  // upright: 150 - (500 - 841) / 2; the frame then has 841 + 300 across
  near(huge.best?.worst.shortMm ?? 0, 394.5, { within: 1e-6, because: '150 + (1189 - 700) / 2' })
  const waiting = await placed({ films: ids['unread'] ?? '', screen })
  expect(waiting).toMatchObject({ best: null, waiting: [{ name: 'unread' }] })
  const films = [{ film: ids['sheet'], xMm: 1, yMm: 2, turned: false }]
  const many = Array.from({ length: 500 }, (_, at) => `film${at}`).join(',')
  for (const [answer, says] of [
    [ask(`${PATHS.place}?frameMm=-3`), /^422 Frame mm must be at least 0|^422 .*-3/],
    [ask(`${PATHS.place}?films=${many}`), /^422 .*at most 40.*500/],
    [ask(`${PATHS.place}?films=nobody`), /^404 There is no such film/],
    [ask(`${PATHS.place}?screen=99`), /^404 There is no such screen/],
    [
      send(PATHS.placeCheck, { screen, films: [...films, ...films] }),
      /^422 One film is laid twice/,
    ],
    [send(PATHS.place, { screen, films: [], laid: true }), /^422 Of films at least 1/],
    [
      send(PATHS.placeCheck, { screen, films: [{ ...films[0], film: ids['unread'] }] }),
      /^422 The film “unread” is still being read/,
    ],
    [
      send(PATHS.glassMarks, {
        unit: ids['unit'],
        what: 'chip',
        xMm: 1190,
        yMm: 5,
        widthMm: 20,
        heightMm: 9,
      }),
      /^422 That reaches beyond the glass, which is 1200 by 900 mm/,
    ],
    [ask(`${PATHS.placePlan}?screen=${screen}&laid=here`), /^422 “here” is no film with its place/],
  ] as const) {
    expect(await refused(answer)).toMatch(says)
  }
})
