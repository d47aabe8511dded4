import { expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { evennessAnswer } from './evennessAnswer.ts'

const glass = { widthMm: 800, heightMm: 600 }
const fine = { steps: 41, firstDensity: 0.05, increment: 0.05 }
const nine = (backLeft: number) =>
  [100, 400, 700].flatMap((xMm) =>
    [100, 300, 500].map((yMm) => {
      const steps = Math.round(20 + backLeft * ((700 - xMm) / 600) * ((yMm - 100) / 400))
      return { xMm, yMm, lastSolidStep: steps, firstClearStep: steps + 5 }
    }),
  )

test('a dark corner is named as one stands before the glass, with what to set there', () => {
  const places = nine(-5) // 0.25 D darker at the back left
  const answer = evennessAnswer({
    glass,
    wedge: fine,
    places,
    usualCount: 42,
    countsIn: 'light units',
  })
  expect(answer.sentences[0]).toMatch(
    /^The back left corner gets \d\d % less light than the middle: give \d\d light units there, not 42\.$/,
  )
  const [, said = '0'] = /gets (\d+) %/.exec(answer.sentences[0] ?? '') ?? []
  // u v of the corner cell's middle (33, 567 mm) is 1.297, of the glass's middle 0.25; by 0.25 D
  near(1 - Number(said) / 100, 10 ** (-0.25 * (1.297 - 0.25)), {
    within: 0.05,
    because: 'steps are whole',
  })
})

test('what so many wedges can tell is said: five a plane, nine a curve, a tenth only when laid over again', () => {
  const said = (places: ReturnType<typeof nine>, wedge = fine): string =>
    evennessAnswer({ glass, wedge, places, countsIn: 'light units' }).sentences.join(' ')
  const five = nine(0).filter((_, at) => [0, 2, 4, 6, 8].includes(at))
  expect(said(five)).toContain('which side is darker, not whether the middle is brighter')
  expect(said(nine(0))).not.toContain('tilted plane')
  // both ends read: √(0.05²/6 + 0.05²) = 0.054 D = 12 %; six numbers of nine wedges, twice: 20 %
  expect(said(nine(0))).toContain(
    'steps of 0.05 tells the light at one place to about 12 %, and 9 of them tell places apart from about 20 % on: a tenth would take them laid 5 times over.',
  )
})

test('an even glass is said to be as even as wedges can tell', () => {
  const answer = evennessAnswer({ glass, wedge: fine, places: nine(0), countsIn: 'seconds' })
  expect(answer.sentences[0]).toContain('No place differs')
  expect(Math.max(...answer.grid.shares) - Math.min(...answer.grid.shares)).toBeLessThan(1e-9)
  expect(answer.grid.shares).toHaveLength(answer.grid.columns * answer.grid.rows)
})
