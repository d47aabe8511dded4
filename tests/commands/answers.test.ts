import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { everyCommand } from '../../src/cli/commands.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { json, run } from './run.ts'

/** What computes, run as it stands in help, from the folder of the house; shop.test.ts has the rest. */
const OF_A_SHOP = ['start', 'backup', 'restore', 'export', 'import', 'check', 'password']
const ENDING = (await everyCommand()).filter(({ name }) => !OF_A_SHOP.includes(name))

const folder = mkdtempSync(join(tmpdir(), 'yellowroom-test-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** The words of a line; what it writes goes to a folder of its own. */
function wordsOf(line: string): readonly string[] {
  const words = line.split(' ')
  return words.map((word, at) =>
    words[at - 1] === '--out' ? join(mkdtempSync(join(folder, 'out-')), word) : word,
  )
}

describe.each(ENDING)('$name', ({ example }) => {
  test('its example prints what help says', async () => {
    const { exit, out, err } = await run(wordsOf(example.line))
    expect((exit === 0 ? out : err).trimEnd()).toBe(example.prints)
  })

  test('the same input gives the same bytes', async () => {
    const line = `${example.line} --json`
    expect((await run(wordsOf(line))).out).toBe((await run(wordsOf(line))).out)
  })
})

test('fabric gives the keys of the contract by the formulas of the weave', async () => {
  const answer = await json(['fabric', '77-55'])
  expect(answer).toMatchObject({ kind: 'fabric' })
  // 77 threads a cm stand 10000/77 = 129.870 um apart: by hand
  near(Number(answer['openingUm']), 74.8701, {
    within: 1e-4,
    because: 'four decimals by hand',
  })
  near(Number(answer['openAreaShare']), 0.33235, {
    within: 1e-5,
    because: '(74.8701/129.870)^2',
  })
  near(Number(answer['finestLineUm']), 129.8701, {
    within: 1e-4,
    because: 'one pitch',
  })
  const rulings = answer['rulingPerCm'] as Record<string, number>
  expect(rulings).toEqual({
    coarse: 77 / 5,
    usual: 77 / 3.75,
    finest: 77 / 2.5,
  })
  expect(await json(['fabric', '--threads-per-cm', '77', '--thread-um', '55'])).toEqual(answer)
})

test('wedge gives the dose and the honest range of one reading', async () => {
  const answer = await json([
    'wedge',
    '--dose',
    '50',
    '--last-solid',
    '9',
    '--target',
    '6',
    '--increment',
    '0.1',
  ])
  // 10^(0.1 · (6 − 9)) = 0.501187; range 10^(1.645 √(0.01/3 + 0.0025)) = 1.33548: by hand
  near(Number(answer['factor']), 0.501187, {
    within: 1e-6,
    because: 'six digits by hand',
  })
  const { value, low, high, confidence } = answer['nextDoseLu'] as Record<string, number>
  near(value, 25.0594, { within: 1e-4, because: '50 times the factor' })
  near(high / value, 1.33548, {
    within: 1e-5,
    because: 'six digits, reckoned apart from the program',
  })
  near(value / low, 1.33548, { within: 1e-4, because: 'the same either way' })
  expect(confidence).toBe(0.9)
})

test('strip: each band is the sum of the settings it sees', async () => {
  const answer = await json(['strip', '--low', '16', '--high', '81', '--bands', '5'])
  const bands = answer['bands'] as { number: number; doseLu: number }[]
  const settings = answer['incrementsLu'] as number[]
  expect(bands.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5])
  // (81/16)^(1/4) = 1.5
  for (const [at, expected] of [16, 24, 36, 54, 81].entries()) {
    near(bands[at].doseLu, expected, { within: 1e-9, because: 'rounding' })
    const seen = settings.slice(4 - at).reduce((sum, setting) => sum + setting, 0)
    near(seen, expected, { within: 1e-9, because: 'rounding' })
  }
})
