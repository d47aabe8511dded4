import { normalDensity, normalQuantile, normalShare } from '../belief/normal.ts'

/** How a sum b0 + b1 x becomes a chance. */
export type LinkName = 'logit' | 'probit' | 'complementary log-log'

/** A chance with its complement, each to full digits, and its slope. */
export type Linked = Readonly<{ share: number; rest: number; slope: number }>

export type Link = Readonly<{
  of: (eta: number) => Linked
  /** Its inverse, for a share above 0 and below 1. */
  at: (share: number) => number
}>

/**
 * The three usual links.
 *
 * @source bliss1935
 */
export const LINKS: Readonly<Record<LinkName, Link>> = {
  logit: {
    of: (eta) => {
      const [share, rest] = [1 / (1 + Math.exp(-eta)), 1 / (1 + Math.exp(eta))]
      return { share, rest, slope: share * rest }
    },
    at: (share) => Math.log(share / (1 - share)),
  },
  probit: {
    of: (eta) => ({
      share: normalShare(eta),
      rest: normalShare(-eta),
      slope: normalDensity(eta),
    }),
    at: normalQuantile,
  },
  'complementary log-log': {
    of: (eta) => {
      const rise = Math.exp(eta)
      return { share: -Math.expm1(-rise), rest: Math.exp(-rise), slope: Math.exp(eta - rise) }
    },
    at: (share) => Math.log(-Math.log1p(-share)),
  },
}
