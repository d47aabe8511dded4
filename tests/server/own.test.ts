import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type FirstDose, firstDose, type LightAnswer, lightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import { choices, type FirstFacts, refusal, shop } from '../../src/api/shop.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { type Room, room } from './room.ts'

let own: Room
const facts: FirstFacts = {
  shopName: 'Shed press',
  countsIn: 'light units',
  fabric: '90-48',
  colour: 'dyed',
  coats: 'once on each side',
  emulsion: 'ready-mixed',
  lastTime: { medium: 'cut masking film', doseLu: 70, outcome: 'good' },
  another: { medium: 'soft pencil', doseLu: 45, outcome: 'filling' },
}

beforeAll(async () => {
  own = await room()
})
afterAll(() => own.close())

const post = (path: string, body: unknown) =>
  own.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const dose = async (told: FirstFacts): Promise<FirstDose> =>
  firstDose.parse(await (await post(PATHS.firstDose, told)).json())
const light = async (query: string): Promise<LightAnswer> =>
  lightAnswer.parse(await (await own.ask(`${PATHS.light}${query}`)).json())
const refused = async (response: Response) => {
  const { error } = refusal.parse(await response.json())
  return { status: response.status, ...error }
}

describe('while the folder is empty', () => {
  test('there is no shop, and what needs one says where it begins', async () => {
    expect(shop.parse(await (await own.ask(PATHS.shop)).json())).toEqual({
      kind: 'shop',
      state: 'none',
    })
    const answer = await refused(await own.ask(PATHS.light))
    expect(answer).toMatchObject({ status: 404, kind: 'not found' })
    expect(answer.message).toContain('first page')
  })

  test('oracle latitude-practice: with every blank open, soft pencil begins where it is usual', async () => {
    const answer = await dose({})
    expect(answer.medium).toBe('soft pencil')
    near(answer.dose.value, 40, { within: 5, because: 'common practice: good at 35 to 45' })
    expect(answer.word).toBe('a first guess')
    expect(answer.afterStrip.screensInTen).toBeGreaterThan(answer.screensInTen)
  })

  test('what is filled in moves the answer in the direction that a printer expects', async () => {
    const open = (await dose({})).dose
    const dyed = (await dose({ colour: 'dyed' })).dose
    near(dyed.value / open.value, 10 ** 0.18, { within: 0.02, because: 'dyed cloth: 0.18 D more' })
    expect((await dose({ fabric: '43-80' })).dose.value).toBeGreaterThan(open.value)
    const filled = { medium: 'soft pencil', doseLu: 40, outcome: 'filled' } as const
    expect((await dose({ lastTime: filled })).dose.value).toBeLessThan(open.value)
    const washed = { medium: 'soft pencil', doseLu: 40, outcome: 'washed off' } as const
    expect((await dose({ lastTime: washed })).dose.value).toBeGreaterThan(open.value)
  })

  test('what is remembered narrows the range', async () => {
    const width = ({ dose: { low, high } }: FirstDose): number => high / low
    const both = await dose({ lastTime: facts.lastTime, another: facts.another })
    expect(width(both)).toBeLessThan(width(await dose({ lastTime: facts.lastTime })))
  })

  test('a lamp that counts seconds wants one exposure, then answers in seconds', async () => {
    const answer = await refused(await post(PATHS.firstDose, { countsIn: 'seconds' }))
    expect(answer).toMatchObject({ status: 409, field: 'unit' })
    expect(answer.message).toContain('one exposure in seconds')
    const lastTime = { medium: 'soft pencil', doseLu: 95, outcome: 'good' } as const
    const seconds = await dose({ countsIn: 'seconds', lastTime })
    expect(seconds.countsIn).toBe('seconds')
    near(seconds.dose.value, 95, { within: 8, because: 'what came out good is repeated' })
  })

  test('a fabric that is none is refused by its blank', async () => {
    const answer = await refused(await post(PATHS.firstDose, { fabric: 'the yellow one' }))
    expect(answer).toMatchObject({ status: 422, field: 'fabric' })
  })

  test('the cloth belongs to the dose: threads within order, shares within 0 and 1', async () => {
    const { cloth, dose: asked } = await dose({})
    expect(cloth.lowLu).toBeLessThan(asked.low)
    expect(cloth.highLu).toBeGreaterThan(asked.high)
    expect(cloth.along).toEqual(cloth.along.toSorted((a, b) => a - b))
    const shares = cloth.across.map(({ share }) => share)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
    for (const share of shares) expect(share >= 0 && share <= 1).toBe(true)
    expect(Math.max(...cloth.good.map(({ chance }) => chance))).toBeLessThanOrEqual(1)
  })
})

describe('one’s own shop', () => {
  let promised: FirstDose
  beforeAll(async () => {
    promised = await dose(facts)
    const response = await post(PATHS.ownShop, facts)
    expect(response.status).toBe(201)
    expect(shop.parse(await response.json())).toMatchObject({ state: 'own', name: 'Shed press' })
  })

  test('keeps the promise of the first page: the same dose, as sure', async () => {
    const answer = await light('')
    expect(answer.asked.subject.name).toBe('soft pencil')
    near(answer.dose.value, promised.dose.value, {
      within: 0.02 * promised.dose.value,
      because: 'the same facts, as records now; the search ends at 0.1 %',
    })
    expect(answer.screensInTen).toBe(promised.screensInTen)
  })

  test('says what its dose rests on', async () => {
    const { reasons, changed } = await light('?medium=soft%20pencil')
    expect(reasons[0]).toBe('It rests on 2 screens of this room, 1 of them with soft pencil.')
    expect(reasons.join(' ')).toContain('90-48 yellow is dyed')
    expect(changed).toBeNull()
  })

  test('has the usual media and bases and nothing of the demo', async () => {
    const all = choices.parse(await (await own.ask(PATHS.choices)).json())
    expect(all.media).toHaveLength(10)
    expect(all.bases.map(({ name }) => name)).toContain('tracing paper')
    expect(all.screens.map(({ name, not }) => [name, not])).toEqual([['screen 1', null]])
    expect(all.films).toEqual([])
    expect(JSON.stringify(all)).not.toMatch(/Quillfield|the big lamp/)
  })

  test('oracle iso5-1: a denser base takes more light by the difference of densities', async () => {
    const usual = await light('?medium=drawing%20ink')
    const tracing = await light('?medium=drawing%20ink&base=tracing%20paper')
    near(tracing.dose.value / usual.dose.value, 10 ** (0.35 - 0.15), {
      within: 0.01,
      because: 'bases 0.35 and 0.15; the search ends at 0.1 %',
    })
    expect(tracing.reasons.join(' ')).toContain('Tracing paper lets through less light')
  })

  test('refuses a medium, screen, base or unit that it does not have, by its field', async () => {
    for (const field of ['medium', 'screen', 'base', 'unit']) {
      const answer = await refused(await own.ask(`${PATHS.light}?${field}=nowhere`))
      expect([answer.status, answer.field]).toEqual([404, field])
    }
    const both = await refused(await own.ask(`${PATHS.light}?medium=drawing%20ink&film=01`))
    expect(both).toMatchObject({ status: 422, field: 'medium' })
  })

  test('lets in neither the demo nor a second shop, and says where they belong', async () => {
    for (const path of [PATHS.demoShop, PATHS.ownShop]) {
      const answer = await refused(await post(path, {}))
      expect([path, answer.status, answer.kind]).toEqual([path, 409, 'conflict'])
    }
    const demo = await refused(await post(PATHS.demoShop, {}))
    expect(demo.message).toContain('YELLOWROOM_DATA')
  })
})
