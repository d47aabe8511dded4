import { dosesUnderBase, type SurfaceDoses, surfaceDoses } from '../core/emulsion/doses.ts'
import { Failure } from '../core/failure.ts'
import { effectiveGapUm } from '../core/film/contact.ts'
import { discRadiusUm, type Source, type Spread, spreadReachUm } from '../core/forecast/spread.ts'
import type { Setup } from './setup.ts'

/** How a setup's light spreads between film and stencil. */
export function spreadOf({ lamp, contact, emulsion, refractiveIndex, scatter }: Setup): Spread {
  const gapUm = effectiveGapUm(contact)
  const source: Source =
    lamp.kind === 'bank'
      ? { kind: 'bank', gapUm }
      : {
          kind: 'disc',
          radiusUm: discRadiusUm(lamp, {
            gapUm,
            thicknessUm: emulsion.thicknessUm,
            refractiveIndex,
          }),
        }
  return { source, halo: { lengthUm: scatter.lengthUm, weight: scatter.weight } }
}

/** Skin, hold and full dose as they must be set: the film base counted in. */
export function setupDoses({ emulsion, contact }: Setup): SurfaceDoses {
  return dosesUnderBase(surfaceDoses(emulsion), contact.filmBaseDensity)
}

/** The widest spread a leak map is folded with, in pixels of the film. */
const MOST_REACH_PX = 600

/** @throws Failure where the light spreads over more pixels than is reasonable */
export function expectFolding(spread: Spread, { pixelUm }: Readonly<{ pixelUm: number }>): void {
  const reachPx = spreadReachUm(spread, 1e-6) / pixelUm
  if (reachPx <= MOST_REACH_PX) return
  const message =
    `The light spreads over ${Math.round(reachPx)} pixels of this film and at most ${MOST_REACH_PX} ` +
    'can be folded; use a film of fewer pixels per mm, or check gap, lamp and scatter in the setup.'
  throw new Failure('too large', message, { field: 'setup' })
}
