import { afterAll, beforeAll, expect, test } from 'vitest'
import { type LightAnswer, lightAnswer } from '../../src/api/light.ts'
import { PATHS } from '../../src/api/paths.ts'
import {
  type NewReading,
  type ReadingTaken,
  readingList,
  readingTaken,
  type Tests,
  tests,
} from '../../src/api/tests.ts'
import { newLampStory } from '../../src/demo/newLamp.ts'
import { type Room, room } from './room.ts'

const PATIENCE_MS = 240_000
const DAY_MS = 24 * 3600_000
/** The strip that people make after the wedge, doses as on the counter. */
const STORY = newLampStory({ wedgeCounts: 60, bands: [22, 27, 34, 42, 53, 66, 83] })

/** Time never stands still: it is a little later each time that anybody looks. */
let looks = 0
const now = (): Date => new Date(Date.now() + looks++)

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const light = async (): Promise<LightAnswer> =>
  lightAnswer.parse(await (await shop.ask(`${PATHS.light}?medium=${STORY.medium}`)).json())
const believed = async (query = ''): Promise<Tests> =>
  tests.parse(await (await shop.ask(`${PATHS.tests}${query}`)).json())
const lines = async () =>
  readingList.parse(await (await shop.ask(`${PATHS.readings}?limit=500`)).json()).readings
const told = async (reading: NewReading): Promise<ReadingTaken> => {
  const taken = readingTaken.parse(await (await post(PATHS.readings, reading)).json())
  await reckoned()
  return taken
}
/** What was told is reckoned with, however slow the machine. */
const reckoned = async (): Promise<void> =>
  expect.poll(async () => (await believed()).warnings, { timeout: PATIENCE_MS }).toEqual([])
const width = ({ low, high }: Readonly<{ low: number; high: number }>): number => high / low
const yesterday = new Intl.DateTimeFormat('sv-SE').format(Date.now() - DAY_MS)

beforeAll(async () => {
  shop = await room({ now })
  expect((await post(PATHS.demoShop, {})).status).toBe(201)
}, PATIENCE_MS)
afterAll(() => shop.close())

test(
  'the demo shop fits a new lamp: the dose is in doubt at once, and why; a wedge moves it, and it is said',
  async () => {
    await reckoned()
    const [light0, tests0, then0, lines0] = [
      await light(),
      await believed(),
      await believed(`?on=${yesterday}`),
      await lines(),
    ]
    expect(light0.word).not.toBe('in doubt')

    expect((await post(PATHS.newLamp, {})).status).toBe(201)
    const [light1, tests1] = [await light(), await believed()]
    expect(light1.word).toBe('in doubt')
    expect(light1.screensInTen).toBeLessThan(light0.screensInTen)
    expect(width(light1.dose)).toBeGreaterThan(width(light0.dose))
    expect(width(tests1.ground.dose)).toBeGreaterThan(1.5 * width(tests0.ground.dose))
    // both say why, and name one and the same test
    expect(light1.changed).toContain('The lamp is new.')
    expect(light1.changed).toContain('a wedge on the margin of the next screen tells most')
    expect(`${tests1.changed?.headline} ${tests1.changed?.sentence}`).toBe(light1.changed)
    expect(tests1.next.kind).toBe('wedge')
    expect(tests1.ground.breaks.at(-1)?.words).toBe('new lamp')

    const { wedge } = STORY
    const { doseCounts, lastSolidStep, firstClearStep } = wedge
    const taken = await told({ kind: 'wedge', doseLu: doseCounts, lastSolidStep, firstClearStep })
    const [light2, tests2] = [await light(), await believed()]
    expect(taken.reading.says).toBe('Wedge at 60: step 5 solid, step 7 clear')
    expect(light2.dose.value).toBeLessThan(0.9 * light1.dose.value)
    expect(light2.screensInTen).toBeGreaterThan(light1.screensInTen)
    expect(width(tests2.ground.dose)).toBeLessThan(0.75 * width(tests1.ground.dose))
    expect(light2.changed).toMatch(
      /^The new lamp seems to want less light\. Since .* the ground needs \d+, \d+ to \d+; before it was 41: seen on one wedge\.$/,
    )
    // the chart: the belief breaks off at the lamp and goes on lower
    const { days, breaks } = tests2.ground
    const fitted = breaks.at(-1)?.on ?? ''
    const before = days.findLast(({ on }) => on < fitted)
    expect(days.at(-1)?.value).toBeLessThan(0.9 * (before?.value ?? 0))

    const bands = STORY.strip.map(({ doseCounts: doseLu, grade }) => ({ doseLu, is: { grade } }))
    await told({ kind: 'strip', medium: STORY.medium, bands })
    const [light3, tests3] = [await light(), await believed()]
    expect(width(tests3.ground.dose)).toBeLessThan(width(tests2.ground.dose))
    expect(tests3.changed).toMatchObject({ headline: 'The new lamp wants less light.' })
    expect(tests3.changed?.sentence).toContain('seen on one wedge and one strip')
    // what nobody in the shop knows: the ground and the marks as they truly are
    const { soundCounts, fogCounts } = STORY.truth.after
    expect(tests3.ground.dose.low).toBeLessThan(soundCounts)
    expect(tests3.ground.dose.high).toBeGreaterThan(soundCounts)
    expect(light3.dose.value).toBeGreaterThan(soundCounts)
    expect(light3.dose.value).toBeLessThan(fogCounts)
    expect(light0.dose.value).toBeGreaterThan(fogCounts)

    // the old readings stand, and so does what was believed on any day before
    const lines3 = await lines()
    expect(lines3.slice(2)).toEqual(lines0)
    const { media, ground } = await believed(`?on=${yesterday}`)
    expect({ media, dose: ground.dose }).toEqual({ media: then0.media, dose: then0.ground.dose })
  },
  PATIENCE_MS,
)
