import { gaussLegendre } from '../../forecast/quadrature.ts'
import { type Lu, type Share, share } from '../../units/quantity.ts'
import type { Gaussian } from './gaussian.ts'
import { EYE } from './likelihood.ts'
import { normalDensity, normalShare, quickNormalShare } from './normal.ts'
import { openBeyond } from './orthant.ts'
import type { Outlook } from './question.ts'

/** How a screen exposed with one dose may come out. */
export type Chances = Readonly<{
  /** The ground stays in the mesh. */
  hold: Share
  /** The ground is as it should be. */
  sound: Share
  /** All marks open. */
  open: Share
  /** All marks open and the ground stays, sound or soft. */
  openAndHold: Share
  /** All marks open and the ground is sound. */
  good: Share
}>

/** Over hold, log10 of dose: there a direct stencil lasts, step 7 of the wedge.
 * @source step-seven */
const DURABLE = 0.95
/** What durability counts beside the chance of a good screen.
 * @source dose-rule */
const DURABLE_WEIGHT = 0.25

/** Where numbers stand in an outlook. */
const HOLD = 0
const SOUND = 1
const FIRST_MARK = 2

/**
 * The chances of a dose, over all that is not known: belief, screen, film, and where the eye draws
 * the line between two grades. Slips of the pen are left out: they do not spoil a screen.
 *
 * @param doseLu above 0
 * @returns good to 1e-6 for one kind of marks, to 1e-3 for a film that mixes several
 * @source grade-likelihood, dose-rule
 */
export function chancesAt(outlook: Outlook, doseLu: Lu): Chances {
  const x = Math.log10(doseLu)
  const sum = (of: (gaussian: Gaussian) => number): Share =>
    share(outlook.parts.reduce((total, part) => total + part.share * of(part.gaussian), 0))
  return {
    hold: sum((gaussian) => below(gaussian, { at: HOLD, x })),
    sound: sum((gaussian) => below(gaussian, { at: SOUND, x })),
    open: sum((gaussian) => openAfter(gaussian, { lead: HOLD, x, weigh: everywhere })),
    openAndHold: sum((gaussian) => openAfter(gaussian, { lead: HOLD, x, weigh: ifPassed })),
    good: sum((gaussian) => openAfter(gaussian, { lead: SOUND, x, weigh: ifPassed })),
  }
}

/** The chance that all marks open alone; x is log10 of the dose in lu. */
export function chanceOpen({ parts }: Outlook, x: number): number {
  const whole = (gaussian: Gaussian): number =>
    openAfter(gaussian, { lead: HOLD, x, weigh: everywhere })
  return parts.reduce((sum, { share, gaussian }) => sum + share * whole(gaussian), 0)
}

/** The chance that the ground holds alone; x is log10 of the dose in lu. */
export function chanceHold({ parts }: Outlook, x: number): number {
  return parts.reduce(
    (sum, { share, gaussian }) => sum + share * below(gaussian, { at: HOLD, x }),
    0,
  )
}

/** The chance of a good screen alone; x is log10 of the dose in lu. */
export function chanceGood({ parts }: Outlook, x: number): number {
  return parts.reduce(
    (sum, { share, gaussian }) =>
      sum + share * openAfter(gaussian, { lead: SOUND, x, weigh: ifPassed }),
    0,
  )
}

/**
 * What a dose is worth: P(sound and open) + 0.25 E[open · clip((x − z1)/0.95, 0, 1)]. The chance of
 * a good screen first, durability where that chance is flat.
 *
 * @param x log10 of the dose in lu
 * @param good its chance of a good screen, where somebody has it at hand
 * @source dose-rule
 */
export function worthOf(
  outlook: Outlook,
  x: number,
  good: number = chanceGood(outlook, x),
): number {
  const durable = outlook.parts.reduce(
    (sum, { share, gaussian }) =>
      sum + share * openAfter(gaussian, { lead: HOLD, x, weigh: byDurability }),
    0,
  )
  return good + DURABLE_WEIGHT * durable
}

/** A weight by how far the dose is over a threshold; its bends say where it is not smooth. */
type Weigh = Readonly<{
  of: (over: number) => number
  from: number
  bends: readonly number[]
  eye: number
}>

const everywhere: Weigh = { of: () => 1, from: Number.NEGATIVE_INFINITY, bends: [], eye: 0 }
const ifPassed: Weigh = { of: () => 1, from: 0, bends: [], eye: EYE.ground }
const byDurability: Weigh = {
  of: (over) => Math.min(1, over / DURABLE),
  from: 0,
  bends: [DURABLE],
  eye: 0,
}

function below({ mean, cov }: Gaussian, { at, x }: Readonly<{ at: number; x: number }>): number {
  const variance = (cov[at * (mean.length + 1)] ?? 0) + EYE.ground ** 2
  return normalShare((x - (mean[at] ?? 0)) / Math.sqrt(variance))
}

/** Expected weight of a threshold, counted only where all marks are open. */
function openAfter(
  { mean, cov }: Gaussian,
  { lead, x, weigh }: Readonly<{ lead: number; x: number; weigh: Weigh }>,
): number {
  const size = mean.length
  const sd = Math.sqrt((cov[lead * (size + 1)] ?? 0) + weigh.eye ** 2)
  const middle = mean[lead] ?? 0
  // u is the threshold in its own sd; over = x − threshold.
  const uAt = (over: number): number => (x - over - middle) / sd
  const weight = (u: number): number => weigh.of(x - middle - sd * u)
  const marks = size - FIRST_MARK
  const covWithLead = Float64Array.from({ length: marks }, (_, i) => {
    return (cov[lead * size + FIRST_MARK + i] ?? 0) / sd
  })
  const rest = {
    mean: mean.subarray(FIRST_MARK),
    slope: covWithLead,
    cov: Float64Array.from({ length: marks * marks }, (_, at) => {
      const [i, j] = [Math.floor(at / marks), at % marks]
      const eye = i === j ? EYE.marks ** 2 : 0
      const both = cov[(FIRST_MARK + i) * size + FIRST_MARK + j] ?? 0
      return both + eye - (covWithLead[i] ?? 0) * (covWithLead[j] ?? 0)
    }),
  }
  const to = uAt(weigh.from)
  if (marks > 1) return openBeyond({ ...rest, x }, { to, weight })

  const bend = Math.sqrt(rest.cov[0] ?? 0)
  const slope = (rest.slope[0] ?? 0) / bend
  const level = ((rest.mean[0] ?? 0) - x) / bend
  const value = (u: number): number =>
    normalDensity(u) * weight(u) * quickNormalShare(level + slope * u)
  // Where the mark's own chance turns from 0 to 1, and how long that takes.
  const turn = -level / slope
  const reach = 5 / Math.abs(slope)
  const turns = Number.isFinite(turn) ? [turn - reach, turn, turn + reach] : []
  return pieces(value, { to, bends: [...weigh.bends.map(uAt), ...turns] })
}

/** 2e-8 of the standard normal lies under it. */
const REACH = 5.5
/** The rule below is good to all digits of the normal curve on pieces so wide. */
const WIDEST = 3
const RULE = gaussLegendre(16)

/** Integral over −REACH … to, in pieces between the bends. */
function pieces(
  of: (u: number) => number,
  { to, bends }: Readonly<{ to: number; bends: readonly number[] }>,
): number {
  const end = Math.min(REACH, to)
  if (end <= -REACH) return 0
  const inside = bends.filter((bend) => bend > -REACH && bend < end)
  const cuts = [-REACH, ...inside.sort((a, b) => a - b), end]
  let sum = 0
  for (let at = 1; at < cuts.length; at++) {
    const [low = 0, high = 0] = [cuts[at - 1], cuts[at]]
    const parts = Math.max(1, Math.ceil((high - low) / WIDEST))
    const half = (high - low) / (2 * parts)
    for (let part = 0; part < parts; part++) {
      const centre = low + half * (2 * part + 1)
      for (let node = 0; node < RULE.nodes.length; node++) {
        sum += half * (RULE.weights[node] ?? 0) * of(centre + half * (RULE.nodes[node] ?? 0))
      }
    }
  }
  return sum
}
