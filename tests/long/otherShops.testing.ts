import type { Random } from '../../src/core/calibration/belief/draws.testing.ts'
import {
  fogEstimate,
  groundEstimate,
  mediumEstimate,
} from '../../src/core/calibration/belief/estimates.ts'
import type { Grade } from '../../src/core/calibration/belief/grades.ts'
import type { SimulatedShop, Where } from '../../src/core/calibration/belief/terms.testing.ts'
import { doseForDepthLu, surfaceDoses } from '../../src/core/emulsion/doses.ts'
import {
  DEFAULT_BLEACHING_EMULSION,
  DEFAULT_EMULSION,
  type Emulsion,
} from '../../src/core/emulsion/emulsion.ts'
import type { Spread } from '../../src/core/forecast/spread.ts'
import { density, lu, um } from '../../src/core/units/quantity.ts'
import { type LineLeaks, lineLeaks, type WidthUm } from './lineLeaks.testing.ts'

/** Contact from good to poor, scatter from dyed cloth to a milky coat. */
const SPREADS: readonly Spread[] = [
  { source: { kind: 'disc', radiusUm: 2 }, halo: { lengthUm: 40, weight: 0.12 } },
  { source: { kind: 'disc', radiusUm: 4 }, halo: { lengthUm: 60, weight: 0.17 } },
  { source: { kind: 'disc', radiusUm: 3 }, halo: { lengthUm: 25, weight: 0.05 } },
  { source: { kind: 'bank', gapUm: 15 }, halo: { lengthUm: 40, weight: 0.1 } },
]

/** What a medium's solid comes to and how broad its lines are; the finest set its dose. */
const MEDIA: Readonly<Record<string, Readonly<{ solid: number; widths: readonly WidthUm[] }>>> = {
  'soft pencil': { solid: 1.02, widths: [300, 300, 500, 500, 1000] },
  'drawing ink': { solid: 1.75, widths: [150, 200, 300, 500, 1000] },
  'cut masking film': { solid: 3.7, widths: [200, 300, 500, 1000, 1000] },
}
const NAMES = Object.keys(MEDIA)
const FABRICS = ['90-48', '77-55'] as const
const WEDGE = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }

/** Draws shops that do not follow the belief's priors. */
export async function otherShops(): Promise<(random: Random) => SimulatedShop> {
  const leaks = await Promise.all(SPREADS.map(lineLeaks))
  return (random) => otherShop(random, random.one(leaks))
}

/**
 * A shop made of physics and of accidents: fog limits by the light that leaks to the middle of each
 * line, hold and sound dose by an emulsion's own law (absorbing or bleaching, its optics off by half
 * as often as not), screens, films and buckets with Student's t of three degrees, a lamp that
 * jumps by 0.1 to 0.35 and says so only half the time, grades misread 5 to 10 % and wedges 7 %.
 */
function otherShop(random: Random, leaks: LineLeaks): SimulatedShop {
  const { normal, uniform, one } = random
  const heavy = (scale: number): number => {
    const chi = (normal() ** 2 + normal() ** 2 + normal() ** 2) / 3
    return Math.max(-8, Math.min(8, normal() / Math.sqrt(chi))) * scale
  }
  const emulsion = drawEmulsion(random)
  const deep = 0.45 + 0.4 * uniform()
  const thresholdsOf = (fabric: string): readonly [number, number, number] => {
    const thicknessUm = um(emulsion.thicknessUm + (fabric === FABRICS[1] ? 12 : 0))
    const coat: Emulsion = { ...emulsion, thicknessUm }
    const { gelDoseLu, holdDoseLu } = surfaceDoses(coat)
    const soundUm = um(coat.anchorDepthUm + deep * (thicknessUm - coat.anchorDepthUm))
    return [gelDoseLu, holdDoseLu, doseForDepthLu(coat, soundUm)].map(Math.log10) as [
      number,
      number,
      number,
    ]
  }
  const fabrics = new Map(
    FABRICS.map((name) => [name as string, { own: heavy(0.05), doses: thresholdsOf(name) }]),
  )
  const dyed = 0.18 + heavy(0.05)
  const batches = [0, 1, 2].map(() => heavy(0.06))
  const buckets = [2 + Math.floor(4 * uniform()), 7 + Math.floor(4 * uniform())]
  const hands = new Map(NAMES.map((name) => [name, heavy(0.12)]))
  const lampWeek = 4 + Math.floor(7 * uniform())
  const [jump, isSaid] = [(uniform() < 0.5 ? 1 : -1) * (0.1 + 0.25 * uniform()), uniform() < 0.5]
  let drift = heavy(0.08)
  let [day, hours, batch, lampChanged] = [0, 300 + 400 * uniform(), 0, false]

  const where = (screen: string | undefined, fabric: string = one(FABRICS)): Where => ({
    unit: 'lamp',
    emulsion: `bucket ${batch}`,
    fabric,
    dyed: fabric === FABRICS[1],
    screen,
    day,
    lampHours: hours,
  })
  const screens = new Map<string, number>()
  const screenOf = (screen: string): number => {
    const known = screens.get(screen) ?? heavy(0.05)
    screens.set(screen, known)
    return known
  }
  /** log10 of skin, hold and sound dose of a set-up. */
  const ground = ({ fabric }: Where): readonly [number, number, number] => {
    const { own = 0, doses = [0, 0, 0] as const } = fabrics.get(fabric) ?? {}
    const shift = drift + batches[batch] + own + (fabric === FABRICS[1] ? dyed : 0)
    return [doses[0] + shift, doses[1] + shift, doses[2] + shift]
  }
  /** Effective densities of a film's lines, the faintest first. */
  const lines = (medium: string, film: number, line: () => number): readonly number[] => {
    const { solid, widths } = MEDIA[medium]
    const own = widths.map((width) => {
      const black = Math.max(0.05, solid + (hands.get(medium) ?? 0) + film + line())
      return -Math.log10(1 - (1 - 10 ** -black) * leaks[width])
    })
    return own.sort((a, b) => a - b)
  }
  const usual = (medium: string): number => lines(medium, 0, () => 0)[0]
  const exposed = (place: Where, medium: string): ((x: number) => Grade) & { fog: number } => {
    const own = screenOf(place.screen ?? '')
    const [skin, hold, sound] = ground(place).map((dose) => dose + own)
    const marks = lines(medium, heavy(0.1), () => 0.03 * normal())
    const look = (x: number): Grade => {
      if (x < hold + 0.03 * normal()) return 'washed off'
      const seen = x + 0.03 * normal()
      const shut = marks.filter((effective) => seen > skin + effective).length
      if (shut >= marks.length / 2) return 'filled'
      if (shut > 0) return 'filling'
      return x > sound + 0.03 * normal() ? 'good' : 'soft'
    }
    return Object.assign(look, { fog: skin + marks[0] })
  }
  const misread = 0.05 + 0.05 * uniform()
  let monday: Where | null = null
  return {
    misread,
    goOn: (today, week) => {
      const burned = 4 + 4 * uniform()
      drift += heavy(Math.sqrt(5e-5 * (today - day) + 2e-5 * burned))
      ;[day, hours] = [today, hours + burned]
      batch = buckets.filter((from) => week >= from).length
      if (week < lampWeek || lampChanged) return
      lampChanged = true
      if (isSaid) hours = burned
      drift += jump
    },
    wedge: (week) => {
      monday = where(`week ${week}`)
      const own = screenOf(monday.screen ?? '')
      const doseLu = lu(60)
      const passed = (z: number): number => {
        const mu = (Math.log10(doseLu) - WEDGE.firstDensity - z - 0.03 * normal()) / WEDGE.increment
        const slip = uniform() < 0.07 ? (uniform() < 0.5 ? -1 : 1) : 0
        return Math.max(0, Math.min(WEDGE.steps, Math.floor(mu + 1) + slip))
      }
      const [skin, hold] = ground(monday)
      const [lastSolidStep, firstClearStep] = [passed(hold + own), passed(skin + own) + 1]
      return { kind: 'wedge', doseLu, wedge: WEDGE, lastSolidStep, firstClearStep, ...monday }
    },
    strip: () => {
      const medium = NAMES[1]
      const place = where('strip')
      const look = exposed(place, medium)
      const bands = [15, 21, 30, 42, 60, 85, 120].map((dose) => {
        const grade = look(Math.log10(dose))
        const wrong = one(['washed off', 'soft', 'good', 'filling', 'filled'] as const)
        return { doseLu: lu(dose), grade: uniform() < misread ? wrong : grade }
      })
      return { kind: 'strip', marks: { medium }, bands, ...place }
    },
    task: () => {
      const place = monday ?? where(`day ${day}`)
      monday = null
      const medium = one(NAMES)
      const look = exposed(place, medium)
      const [skin, hold, sound] = ground(place)
      const cov = new Float64Array(9).fill(0.05 ** 2)
      cov[8] += 0.1 ** 2
      const mean = Float64Array.of(hold, sound, skin + usual(medium))
      return {
        medium,
        where: place,
        gradeAt: look,
        fog: look.fog,
        truth: { marks: 1, parts: [{ share: 1, gaussian: { mean, cov } }] },
      }
    },
    kinds: () =>
      FABRICS.flatMap((fabric) =>
        NAMES.map((medium) => ({ medium, where: where(undefined, fabric) })),
      ),
    ranges: (belief) => {
      const place = where(undefined)
      const [skin, hold, sound] = ground(place)
      const { gelDoseLu, holdDoseLu, soundDoseLu } = groundEstimate(belief, place)
      return [
        ['skin', [gelDoseLu, 10 ** skin]],
        ['hold', [holdDoseLu, 10 ** hold]],
        ['sound', [soundDoseLu, 10 ** sound]],
        ...NAMES.flatMap((medium) => {
          const fog = fogEstimate(belief, { ...place, marks: { medium } })
          return [
            ['fog limit', [fog, 10 ** (skin + usual(medium))]],
            ['medium', [mediumEstimate(belief, medium), usual(medium)]],
          ] as const
        }),
      ]
    },
  }
}

/** The default coat of one model or the other, every number of it off. */
function drawEmulsion({ normal, uniform }: Random): Emulsion {
  const about = (value: number, sd: number): number => value * 10 ** (sd * normal())
  const coat = { thicknessUm: um(about(80, 0.05)), anchorDepthUm: um(about(20, 0.12)) }
  if (uniform() < 0.5) {
    const penetrationDepthUm = um(about(DEFAULT_EMULSION.penetrationDepthUm, 0.18))
    const gelDoseLu = lu(about(DEFAULT_EMULSION.gelDoseLu, 0.18))
    return { ...DEFAULT_EMULSION, ...coat, penetrationDepthUm, gelDoseLu }
  }
  const { aPerUm, bPerUm, cPerLu } = DEFAULT_BLEACHING_EMULSION
  return {
    ...DEFAULT_BLEACHING_EMULSION,
    ...coat,
    aPerUm: about(aPerUm, 0.18),
    bPerUm: about(bPerUm, 0.18),
    cPerLu: about(cPerLu, 0.18),
  }
}
