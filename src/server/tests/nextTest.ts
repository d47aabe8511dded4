import type { Tests } from '../../api/tests.ts'
import { bestTest, type Use } from '../../core/calibration/design/bestTest.ts'
import { plainName } from '../../core/units/plainName.ts'
import { circumstancesOf, countsOf } from '../../workflow/lightSetup.ts'
import { doseWords } from '../../workflow/readingWords.ts'
import type { Told } from '../http/route.ts'
import type { Then } from './then.ts'
import { thingName } from './thingName.ts'
import { uncrossed } from './uncrossed.ts'

/** Bands of a strip that is offered beside a wedge. */
const USUAL_BANDS = 6

/** The test worth most now, and what it would tell. */
export function nextTest(then: Then): Told<Tests['next']> {
  const { records, belief, setUp } = then
  const { unit } = setUp.exposure
  const counts = countsOf(unit)
  const [usual] = records.media
  const uses = usesOf(then)
  const best = bestTest(belief, {
    uses,
    crossings: uncrossed(then).map(({ cross }) => ({ ...uses[0].question, ...cross })),
    words: {
      nameOf: (kind, name) => (kind === 'medium' ? name : thingName(records, kind, name)),
      amount: (doseLu) => `${doseWords(counts * doseLu)} ${unit.countsIn}`,
    },
  })
  const medium = records.media.find(({ name }) => name === best.medium) ?? usual
  return {
    kind: best.bands === null ? 'wedge' : 'strip',
    sentence: best.sentence,
    medium: { id: medium?.id ?? '', name: medium?.name ?? '' },
    bands: best.bands ?? USUAL_BANDS,
    minutes: best.minutes,
  }
}

/** Each medium on this set-up, as often as screens with it were told of, and once more. */
function usesOf({ records, belief, setUp, day }: Then): readonly [Use, ...Use[]] {
  const circumstances = circumstancesOf(setUp.exposure, { day })
  const use = (medium: string): Use => {
    const name = plainName(medium)
    const known = belief.entries.find((entry) => entry.kind === 'medium' && entry.name === name)
    const weight = 1 + (known?.heard.outcome.times ?? 0)
    return { question: { ...circumstances, marks: [{ medium }] }, weight }
  }
  const [first, ...others] = records.media.map(({ name }) => use(name))
  return [first ?? use(''), ...others]
}
