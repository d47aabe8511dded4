import { DEFAULT_EMULSION, type Emulsion } from '../core/emulsion/emulsion.ts'
import type { Contact } from '../core/film/contact.ts'
import type { Density, Mm, PerCm, Share, Um } from '../core/units/quantity.ts'
import { density, mm, perCm, share, um } from '../core/units/quantity.ts'

/** The lamp: small and far, or a bank of tubes or a panel near the glass. */
export type PointLamp = Readonly<{ kind: 'point'; distanceMm: Mm; sourceRadiusMm: Mm }>
export type Bank = Readonly<{ kind: 'bank'; distanceMm: Mm }>
export type Lamp = PointLamp | Bank

/** The physics of one exposure: everything that turns a film and a dose into a stencil. */
export type Setup = Readonly<{
  lamp: Lamp
  /** How the film lies, and the density of its base, which dims everything under and around it. */
  contact: Contact & Readonly<{ filmBaseDensity: Density }>
  emulsion: Emulsion
  /** Of the coat, at the lamp's wavelengths. */
  refractiveIndex: number
  /** The halo of light that fabric and coat scatter: a share of it, spread over a length. */
  scatter: Readonly<{ lengthUm: Um; weight: Share }>
  fabric: Readonly<{ threadsPerCm: PerCm; threadUm: Um }>
}>

export const DEFAULT_POINT: PointLamp = {
  kind: 'point',
  distanceMm: mm(800),
  sourceRadiusMm: mm(20),
}

export const DEFAULT_BANK: Bank = { kind: 'bank', distanceMm: mm(80) }

/** What a key that is not given means: a point lamp, white 90-48 fabric, the usual coat. */
export const DEFAULT_SETUP: Setup = {
  lamp: DEFAULT_POINT,
  contact: {
    gapUm: um(5),
    filmBaseUm: um(100),
    imageSide: 'against emulsion',
    filmBaseDensity: density(0),
  },
  emulsion: DEFAULT_EMULSION,
  refractiveIndex: 1.5,
  scatter: { lengthUm: um(40), weight: share(0.12) },
  fabric: { threadsPerCm: perCm(90), threadUm: um(48) },
}
