import { demoHistory } from './history.ts'
import {
  DEMO_TRUTH,
  type DemoGrade,
  drawnThresholds,
  gradeTold,
  luckFrom,
  trueThresholds,
  wedgeRead,
} from './historyTruth.ts'
import { DEMO_SHOP } from './shop.ts'

/**
 * The demo shop fits a new lamp: the same kind, which asks for half a stop less by the old counter.
 * What people would type on that day, and what is then true. Demo.
 */
export type NewLampStory = Readonly<{
  fabric: string
  medium: string
  wedge: Readonly<{ doseCounts: number; lastSolidStep: number; firstClearStep: number }>
  strip: readonly Readonly<{ doseCounts: number; grade: DemoGrade }>[]
  /** Doses on the counter, of any screen of this set-up; before and after the lamp was changed. */
  truth: Readonly<Record<'before' | 'after', Readonly<{ soundCounts: number; fogCounts: number }>>>
}>

/** log10 by which all doses fall under the new lamp. */
const NEW_LAMP_SHIFT = -0.15
/** A draw of chance in which the wedge shows what the hidden truth makes most likely. */
const SEED = 1932
const WEDGE = { steps: 21, firstDensity: 0.05, increment: 0.15 }
const LAPSE = 0.02

/**
 * A wedge and a strip under the new lamp, on one screen, as the shop's hidden truth has them.
 *
 * @param bands doses of the strip on the counter, as its design has them
 */
export function newLampStory({
  wedgeCounts,
  bands,
}: Readonly<{ wedgeCounts: number; bands: readonly number[] }>): NewLampStory {
  const luck = luckFrom(SEED)
  const set = { fabric: '90-48 yellow', bucket: 'open', medium: 'soft pencil' } as const
  const { drifted } = demoHistory()
  const was = trueThresholds({ ...set, drifted })
  const is = trueThresholds({ ...set, drifted: drifted + NEW_LAMP_SHIFT })
  const own = drawnThresholds(is, {
    screen: DEMO_TRUTH.screenSd * luck.normal(),
    film: DEMO_TRUTH.filmSd * luck.normal(),
  })
  const { countsPerLu } = DEMO_SHOP.unit
  const x = (counts: number): number => Math.log10(counts / countsPerLu)
  return {
    fabric: set.fabric,
    medium: set.medium,
    wedge: {
      doseCounts: wedgeCounts,
      ...wedgeRead(luck, { x: x(wedgeCounts), of: own, wedge: WEDGE }),
    },
    strip: bands.map((doseCounts) => ({
      doseCounts,
      grade: gradeTold(luck, { x: x(doseCounts), of: own, lapse: LAPSE }),
    })),
    truth: {
      before: {
        soundCounts: countsPerLu * 10 ** was.sound,
        fogCounts: countsPerLu * 10 ** was.fog,
      },
      after: { soundCounts: countsPerLu * 10 ** is.sound, fogCounts: countsPerLu * 10 ** is.fog },
    },
  }
}
