import type { Density, PerCm, Um } from '../core/units/quantity.ts'
import type { Lamp } from './setup.ts'

/** What a lamp counts: an integrator's light units, or nothing but time. */
export type CountsIn = 'light units' | 'seconds'

/** An exposure unit as the light question needs it. */
export type LightUnit = Readonly<{
  id: string
  name: string
  lamp: Lamp
  countsIn: CountsIn
  /** What its counter shows for one light unit of the models; null while nobody can tell. */
  countsPerLu: number | null
  /** Share of the light that its counter counts where the film lies; left out: as counted. */
  glassShare?: number | undefined
  lampHours: number | null
  /** Whole days since 1970 until its lamp took the place of another; left out: it is the first. */
  lampFitted?: number | undefined
}>

export type LightFabric = Readonly<{
  id: string
  name: string
  threadsPerCm: PerCm
  threadUm: Um
  colour: 'white' | 'dyed'
}>

/** How often a screen is coated, in the words of the room. */
export type Coats = 'once on each side' | 'twice on the print side' | 'more'

export type LightEmulsion = Readonly<{
  /** One bucket of it. */
  id: string
  model: 'absorbing' | 'bleaching'
}>

export type LightCoating = Readonly<{
  id: string
  /** Null where it was put on in another way, or nobody said. */
  coats: Coats | null
  /** Emulsion over mesh, measured; null: as is usual for these coats. */
  overMeshUm: Um | null
  emulsion: LightEmulsion | null
}>

export type LightScreen = Readonly<{
  id: string
  name: string
  fabric: LightFabric
  /** One coating of this screen; null while it is clean: then the shop's usual one is meant. */
  coating: LightCoating | null
}>

export type LightBase = Readonly<{
  id: string
  name: string
  baseDensity: Density
  thicknessUm: Um
}>

/** What was found on a film that was read. */
export type ReadMarks = Readonly<{
  weakest: Readonly<{ xMm: number; yMm: number; density: Density; effectiveDensity: Density }>
  /** Effective density of the film's marks in equal shares of their length, palest first. */
  along: readonly number[]
}>

export type LightSubject =
  | Readonly<{ kind: 'medium'; id: string; name: string }>
  | Readonly<{
      kind: 'film'
      id: string
      name: string
      medium: string | null
      marks: ReadMarks
      /** Of a film read from a photo: how far its densities can be off. */
      photo?: Readonly<{ densitySd: Density }> | null | undefined
    }>

/** Everything that one exposure is asked about. */
export type LightExposure = Readonly<{
  subject: LightSubject
  base: LightBase
  screen: LightScreen | null
  unit: LightUnit
}>

/** What is usual in this shop. */
export type LightShop = Readonly<{ usualBase: LightBase; secondsUnits: readonly string[] }>
