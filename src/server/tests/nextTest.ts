import type { Tests } from '../../api/tests.ts'
import { outlookOn } from '../../core/calibration/belief/question.ts'
import { recommendedDose } from '../../core/calibration/belief/recommend.ts'
import { circumstancesOf, countsOf } from '../../workflow/lightSetup.ts'
import { afterMarginWedge } from '../../workflow/marginWedge.ts'
import { doseWords } from '../../workflow/readingWords.ts'
import { stripDesign } from '../../workflow/stripDesign.ts'
import type { Told } from '../http/route.ts'
import { minutesFor, USUAL_BANDS } from './designAnswer.ts'
import type { Then } from './then.ts'

/**
 * A wedge lies on a screen that is made anyway: it is worth most where it gives so much of what a
 * strip would, which costs a screen of its own; judged.
 */
const WEDGE_WORTH_SHARE = 2 / 3

/** The test worth most now, and what it would tell. */
export function nextTest({ records, belief, setUp, day }: Then): Told<Tests['next']> {
  const [medium] = records.media
  const [id, name] = [medium?.id ?? '', medium?.name ?? '']
  const counts = countsOf(setUp.exposure.unit)
  const question = { ...circumstancesOf(setUp.exposure, { day }), marks: [{ medium: name }] }
  const before = recommendedDose(outlookOn(belief, question))
  const wedge = afterMarginWedge(belief, question)
  const { after: strip } = stripDesign(belief, question, {
    bands: USUAL_BANDS,
    countsPerLu: counts,
  })
  const gain = ({ chances }: typeof before): number => chances.good - before.chances.good
  const isWedge = gain(strip) > 0 && gain(wedge) >= WEDGE_WORTH_SHARE * gain(strip)
  const minutes = minutesFor(USUAL_BANDS)
  const after = isWedge ? wedge : strip
  const known = `and what should work in ${name} is known to lie from ${doseWords(counts * after.lowLu)} to ${doseWords(counts * after.highLu)}.`
  const sentence = isWedge
    ? `A wedge on the margin of the next screen, two numbers read at the sink, ${known}`
    : `One strip in ${name}, ${USUAL_BANDS} bands, ${minutes} minutes, ${known}`
  return {
    kind: isWedge ? 'wedge' : 'strip',
    sentence,
    medium: { id, name },
    bands: USUAL_BANDS,
    minutes,
  }
}
