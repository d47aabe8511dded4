import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import { json, refused, run } from './run.ts'

let place = ''
const at = (name: string): string => join(place, name)
beforeAll(async () => {
  place = await mkdtemp(join(tmpdir(), 'place-'))
})
afterAll(() => rm(place, { recursive: true }))

const GOOD = {
  frame: { insideWidthMm: 700, insideHeightMm: 900 },
  films: [{ name: 'boat & pears', widthMm: 200, heightMm: 300, turn: 'fixed' }],
  clearance: { frameMm: 150, betweenMm: 150 },
  keepOut: [],
}

test('the plan that is drawn says what the answer says, in mm', async () => {
  await writeFile(at('p.json'), JSON.stringify(GOOD))
  const answer = await json(['place', at('p.json'), '--picture', at('plan.svg')])
  expect(answer).toMatchObject({ kind: 'placement', verdict: 'fits', proved: true })
  const [film] = answer['films'] as { xMm: number; yMm: number }[]
  near(film?.xMm ?? 0, 250, { within: 1e-6, because: '(700 - 200) / 2' })
  const drawing = await readFile(at('plan.svg'), 'utf8')
  // An SVG of one unit a millimetre: its own size in mm over its viewBox.
  const [, wide = '', box = ''] =
    /width="([\d.]+)mm".*viewBox="-60 -60 ([\d.]+) /.exec(drawing) ?? []
  expect(wide).toBe(box)
  const [, x = '', y = ''] = /class="film" x="([\d.]+)" y="([\d.]+)"/.exec(drawing) ?? []
  expect([x, y]).toEqual(['250', '300'])
  expect(drawing).toContain('boat &amp; pears')
  // 200 in 700 and 300 in 900 leave 250 at the left and right, 300 at the top and bottom.
  const lengths = [...drawing.matchAll(/>([\d.]+) mm</g)].map(([, length]) => Number(length))
  expect(lengths.toSorted((a, b) => a - b)).toEqual([250, 250, 300, 300, 700, 900])
  expect((await refused(['place', at('p.json'), '--picture', at('plan.svg')])).exit).toBe(2)
})

test('a film larger than its frame is an answer', async () => {
  const frame = { insideWidthMm: 100, insideHeightMm: 100 }
  await writeFile(at('small.json'), JSON.stringify({ ...GOOD, frame }))
  const { exit, out } = await run(['place', at('small.json')])
  expect(exit).toBe(0)
  expect(out).toContain('do not fit')
  // Of 1:1, for a film of 200 by 300 with 150 on all sides.
  expect(out).toContain('A frame of 600 mm by 600 mm inside would do.')
})

test.each([
  ['frame', { ...GOOD, frame: undefined }],
  ['frame.insideWidthMm', { ...GOOD, frame: { insideHeightMm: 900 } }],
  ['clearance.frameMm', { ...GOOD, clearance: { frameMm: -1 } }],
  ['films', { ...GOOD, films: [] }],
  ['films', { ...GOOD, films: Array.from({ length: 501 }, () => GOOD.films[0]) }],
  ['films', { ...GOOD, films: {} }],
  ['films[0].widthMm', { ...GOOD, films: [{ name: 'a', widthMm: '42o', heightMm: 2 }] }],
  ['films[0].turn', { ...GOOD, films: [{ name: 'a', widthMm: 2, heightMm: 2, turn: 'half' }] }],
  ['films[0].name', { ...GOOD, films: [{ name: '', widthMm: 2, heightMm: 2 }] }],
  [
    'films[0].marks',
    {
      ...GOOD,
      films: [{ ...GOOD.films[0], marks: { xMm: 20, yMm: 0, widthMm: 190, heightMm: 9 } }],
    },
  ],
  ['films[0].outline', { ...GOOD, films: [{ ...GOOD.films[0], outline: [] }] }],
  [
    'films[0].outline',
    {
      ...GOOD,
      films: [
        {
          ...GOOD.films[0],
          outline: [
            [
              [0, 0],
              [5, 5],
              [9, 9],
            ],
          ],
        },
      ],
    },
  ],
  ['keepOut[0].xMm', { ...GOOD, keepOut: [{ yMm: 0, widthMm: 2, heightMm: 2 }] }],
  ['gap', { ...GOOD, gap: 3 }],
])('what is wrong with %s is one sentence', async (field, problem) => {
  await writeFile(at('wrong.json'), JSON.stringify(problem))
  const { exit, message, field: said } = await refused(['place', at('wrong.json')])
  expect([exit, said]).toEqual([2, field])
  expect(message).toMatch(/^[A-Zcfkg].*\.$/)
})
