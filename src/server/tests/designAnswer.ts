import type { DesignQuestion, TestDesign } from '../../api/tests.ts'
import type { Question } from '../../core/calibration/belief/question.ts'
import { afterStrip } from '../../core/calibration/design/afterStrip.ts'
import { bestStrip } from '../../core/calibration/design/bestStrip.ts'
import { RANGE_SHARE } from '../../workflow/light.ts'
import type { LightUnit } from '../../workflow/lightRecords.ts'
import { circumstancesOf, countsOf } from '../../workflow/lightSetup.ts'
import { counterSettings, settableDoses } from '../../workflow/papers/settableDoses.ts'
import { testFilmCoverMm } from '../../workflow/papers/testFilmLayout.ts'
import type { Told } from '../http/route.ts'
import { dayOf } from '../shop/days.ts'
import { mediumAsked } from '../shop/exposureAsked.ts'
import { fabricName } from '../shop/lightThings.ts'
import { bucketName, setUpAsked } from '../shop/setUpAsked.ts'
import type { ShopService } from '../shop/shopService.ts'

/** Exposing, washing and looking: so much for a strip, and so much for each band; judged. */
const STRIP_MIN = 9
const BAND_MIN = 1

/** Which strip to make, and what it would tell. */
export async function designOf(
  service: ShopService,
  { medium: named, bands, ...setUp }: DesignQuestion,
): Promise<Told<TestDesign>> {
  const records = await service.records()
  const { fabric, batch, exposure } = setUpAsked(records, setUp)
  const medium = mediumAsked(records, named)
  const { unit } = exposure
  const counts = countsOf(unit)
  const question: Question = {
    ...circumstancesOf(exposure, { day: dayOf(service.now()) }),
    marks: [{ medium: medium.name }],
  }
  const { bandsLu, before, after } = bestStrip(records.belief, question, { bands })
  const twoFilms = afterStrip(records.belief, question, { bandsLu, films: 2 })
  const doses = settableDoses(bandsLu.map((doseLu) => counts * doseLu))
  return {
    kind: 'test design',
    asked: {
      fabric: { id: fabric.id, name: fabricName(fabric) },
      batch: batch === null ? null : { id: batch.id, name: bucketName(records, batch) },
      unit: { id: unit.id, name: unit.name },
      medium: { id: medium.id, name: medium.name },
    },
    countsIn: unit.countsIn,
    bands: doses.map((doseLu, at) => ({ number: at + 1, doseLu })),
    incrementsLu: counterSettings(doses.toReversed()),
    coverMm: testFilmCoverMm({ bands: doses.length }).slice(1),
    before: {
      dose: {
        value: counts * before.doseLu,
        low: counts * before.lowLu,
        high: counts * before.highLu,
        confidence: RANGE_SHARE,
      },
      screensInTen: before.screensInTen,
    },
    after: {
      lowLu: counts * after.lowLu,
      highLu: counts * after.highLu,
      screensInTen: after.screensInTen,
    },
    minutes: minutesFor(doses.length),
    twoFilms: {
      screensInTen: twoFilms.screensInTen,
      lowLu: counts * twoFilms.lowLu,
      highLu: counts * twoFilms.highLu,
      minutes: minutesFor(doses.length) + SECOND_FILM_MIN,
    },
    sentences: sentencesFor({ bands: doses.length, unit }),
    cautions: CAUTIONS,
  }
}

/** Another film beside the first, to lay and to read. @source test-worth */
const SECOND_FILM_MIN = 5

/** To five minutes. */
function minutesFor(bands: number): number {
  return 5 * Math.ceil((STRIP_MIN + BAND_MIN * bands) / 5)
}

function sentencesFor({
  bands,
  unit,
}: Readonly<{ bands: number; unit: LightUnit }>): readonly string[] {
  const bySeconds = unit.countsIn === 'seconds'
  return [
    'Lay the film on the screen as any other, its print side to the emulsion, and a piece of card over all of it but the first band, between lamp and film.',
    `Set the first number on the counter of ${unit.name}, expose, and draw the card back by one band; so on, until all ${bands} are uncovered.`,
    ...(bySeconds
      ? ['All seconds here are those of a hot lamp: light it until it is hot first.']
      : []),
    'Leave the lamp lit between the settings where it has a shutter: a lamp that is lit afresh warms up afresh.',
    'Wash out as usual, hold the screen against a light, and say for each band how it came out.',
  ]
}

const CAUTIONS: readonly string[] = [
  'Do not look at the lamp. It lights only with the lid closed; leave that switch alone.',
  'The lid is heavy. Hold it until it rests.',
  'The manual of the unit comes first: how long the lamp must cool, and who may change it.',
]
