import type { Tests } from '../../api/tests.ts'
import { circumstancesOf, countsOf } from '../../workflow/lightSetup.ts'
import { doseWords } from '../../workflow/readingWords.ts'
import { stripDesign } from '../../workflow/stripDesign.ts'
import type { Told } from '../http/route.ts'
import { minutesFor, USUAL_BANDS } from './designAnswer.ts'
import type { Then } from './then.ts'

/** The test worth most now, and what it would tell. */
export function nextTest({ records, belief, setUp, day }: Then): Told<Tests['next']> {
  const [medium] = records.media
  const counts = countsOf(setUp.exposure.unit)
  const question = {
    ...circumstancesOf(setUp.exposure, { day }),
    marks: [{ medium: medium?.name ?? '' }],
  }
  const { after } = stripDesign(belief, question, { bands: USUAL_BANDS, countsPerLu: counts })
  const minutes = minutesFor(USUAL_BANDS)
  return {
    sentence: `One strip in ${medium?.name}, ${USUAL_BANDS} bands, ${minutes} minutes, and what should work is known to lie from ${doseWords(counts * after.lowLu)} to ${doseWords(counts * after.highLu)}.`,
    medium: { id: medium?.id ?? '', name: medium?.name ?? '' },
    bands: USUAL_BANDS,
    minutes,
  }
}
