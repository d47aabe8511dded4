import { expect, test } from 'vitest'
import { secondsCorrected } from '../core/light/warmUp.ts'
import { near } from '../core/units/near.testing.ts'
import { meterAnswer } from './lampMeter.ts'

const asked = { count: 480, reference: 62, warmUp: null }

test('the start says today’s seconds, when to read again, and how sure', () => {
  const { moreSec, readAgainSec, sentences } = meterAnswer({
    ...asked,
    readings: [{ clockSec: 0, reading: 48 }],
  })
  near(moreSec.value, 620, { within: 1e-9, because: 'worked by hand: 480 · 62/48' })
  expect(readAgainSec).toBe(310)
  expect(sentences[0]).toMatch(
    /^480 seconds take 620 today, \d+ to \d+: the meter shows 48 and not 62\.$/,
  )
  expect(sentences[1]).toContain('again at 5:10')
  expect(sentences.at(-1)).toMatch(/^Never look into the sun/)
})

test('midway it says what was given and until when; at the end what to write down', () => {
  const start = { clockSec: 0, reading: 48 }
  const midway = meterAnswer({ ...asked, readings: [start, { clockSec: 310, reading: 52 }] })
  // 310 · 50/62 = 250 given, 230 · 62/52 = 274 s to go
  expect(midway.sentences[0]).toMatch(
    /^It has had the light of 250 of 480 seconds: 274 more, \d+ to \d+, until 9:44 on the clock\.$/,
  )
  const end = meterAnswer({ ...asked, readings: [start, { clockSec: 620, reading: 52 }] })
  expect(end).toMatchObject({ moreSec: { value: 0 }, readAgainSec: null })
  expect(end.sentences[0]).toBe(
    'It has had the light of 500 seconds, and 480 were wanted: cover it now.',
  )
  expect(end.sentences[1]).toContain('Write down 500 seconds')
})

test('under tubes of which the warm-up is known it says those from cold too', () => {
  const warmUp = { hotPerSec: 60, coldPerSec: 75, tauSec: 40, lagSec: 0 }
  const { sentences } = meterAnswer({
    ...asked,
    count: 90,
    warmUp,
    readings: [{ clockSec: 0, reading: 62 }],
  })
  const coldSec = secondsCorrected(warmUp, { hotSec: 90 })
  expect(coldSec).toBeLessThan(90)
  expect(sentences[1]).toContain(`from cold, set ${Math.round(coldSec)} seconds`)
})
