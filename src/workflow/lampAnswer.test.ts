import { expect, test } from 'vitest'
import { countAfter, secondsFor } from '../core/light/warmUp.ts'
import { near } from '../core/units/near.testing.ts'
import { lampAnswer } from './lampAnswer.ts'

const CLOCK = [10, 20, 30, 45, 60, 90, 120, 180, 240]
const aged = (hours: number) => ({
  hotPerSec: 2 * 0.97 ** (hours / 100),
  coldPerSec: 0.6,
  tauSec: 40,
  lagSec: 0,
})
const timing = (on: string, lampHours: number) => ({
  on,
  from: 'cold' as const,
  lampHours,
  pairs: CLOCK.map((clockSec) => ({
    clockSec,
    count: Math.floor(countAfter(aged(lampHours), { sec: clockSec, from: 'cold' })),
  })),
})
const usualCounts = [30, 45, 60]

test('seconds from cold and hot are those of the lamp that was timed', () => {
  const timings = [timing('2026-11-02', 410), timing('2026-09-02', 200), timing('2026-06-02', 20)]
  const { warmUp, times, ageing, sentences } = lampAnswer({
    countsIn: 'light units',
    timings,
    usualCounts,
  })
  const because = 'whole counts'
  near(warmUp?.tauSec.value ?? 0, 40, { within: 4, because })
  const usual = times[1]
  near(usual?.coldSec ?? 0, secondsFor(aged(410), { count: 45, from: 'cold' }), {
    within: 0.6,
    because,
  })
  near(usual?.hotSec ?? 0, 45 / aged(410).hotPerSec, { within: 0.4, because })
  expect(sentences[0]).toMatch(
    /^30, 45 and 60 light units take \d\d, \d\d and \d\d seconds from cold and \d\d, \d\d and \d\d when hot\.$/,
  )
  for (const { coldSec } of times) expect(sentences[0]).toContain(` ${Math.round(coldSec)}`)
  expect(sentences[1]).toMatch(/too little\.$/)
  // it loses 3 % in 100 hours: 0.7 at 1,171
  expect(ageing?.points).toHaveLength(3)
  expect(sentences.at(-1)).toContain('Do not look at the lamp')
  expect(warmUp?.curve.at(-1)?.clockSec).toBe(240)
})

test('without a timing from cold it says what to do', () => {
  const answer = lampAnswer({ countsIn: 'light units', timings: [], usualCounts })
  expect(answer).toMatchObject({ warmUp: null, times: [], ageing: null })
  expect(answer.sentences[0]).toContain('write down clock and counter from the switch on')
})
