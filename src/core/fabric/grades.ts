import { type PerCm, perCm, type Share, share, type Um, um } from '../units/quantity.ts'

/** A plain-woven fabric by the two numbers of its name: 90-48 is 90 threads a cm of 48 um. */
export type Weave = Readonly<{ threadsPerCm: PerCm; threadUm: Um }>

/** What a published row says of it, in the row's own numbers; null where the row is silent. */
export type PublishedRow = Readonly<{
  /** The count the row was reckoned or measured with; it may differ from the name's. */
  threadsPerCm: PerCm
  openingUm: Um | null
  openAreaShare: Share | null
  thicknessUm: Um | null
  inkVolumeCm3PerM2: number | null
  /** The section of `docs/sources.md` that cites it. */
  source: string
}>

/** A grade that shops buy. */
export type Grade = Weave &
  Readonly<{
    name: string
    status: 'published' | 'common practice, no source'
    published: PublishedRow | null
  }>

const fromInch = (threadsPerInch: number): PerCm => perCm(threadsPerInch / 2.54)

/**
 * The common grades. `published` ones carry their row; the other pairs are what fabrics are sold
 * as in shops everywhere, with no source at hand.
 *
 * The three 90s of the maker's table mean 225 threads per inch, 88.58 per cm: only so do its
 * openings, areas and volumes follow from count and thread.
 *
 * @source fabric-rows, fabric-measured, fabric-pairs, ruling-ratios, fabric-grades
 */
export const GRADES: readonly Grade[] = [
  pair(10, 260, 'fabric-pairs'),
  common(21, 140),
  common(32, 100),
  pair(34, 100, 'fabric-pairs'),
  common(43, 80),
  common(48, 70),
  common(54, 64),
  common(55, 64),
  common(61, 64),
  common(68, 64),
  common(71, 48),
  common(77, 48),
  common(77, 55),
  row(90, 40, { opening: 73, openArea: 0.42, thickness: 59, volume: 25 }),
  row(90, 48, { opening: 65, openArea: 0.33, thickness: 72, volume: 24 }),
  row(90, 54, { opening: 59, openArea: 0.27, thickness: 84, volume: 23 }),
  common(100, 40),
  common(110, 34),
  common(120, 31),
  pair(120, 34, 'fabric-pairs'),
  {
    ...named(120, 40),
    status: 'published',
    published: {
      threadsPerCm: fromInch(305),
      openingUm: null,
      openAreaShare: share(0.25),
      thicknessUm: um(63),
      inkVolumeCm3PerM2: null,
      source: 'fabric-measured',
    },
  },
  common(140, 31),
  pair(150, 31, 'ruling-ratios'),
  common(150, 34),
  common(165, 31),
  common(180, 27),
]

function named(threadsPerCm: number, threadUm: number): Weave & Readonly<{ name: string }> {
  const name = `${threadsPerCm}-${threadUm}`
  return { name, threadsPerCm: perCm(threadsPerCm), threadUm: um(threadUm) }
}

function common(threadsPerCm: number, threadUm: number): Grade {
  const status = 'common practice, no source'
  return { ...named(threadsPerCm, threadUm), status, published: null }
}

/** The source gives count and thread of this grade and nothing more. */
function pair(threadsPerCm: number, threadUm: number, source: string): Grade {
  const published: PublishedRow = {
    threadsPerCm: perCm(threadsPerCm),
    openingUm: null,
    openAreaShare: null,
    thicknessUm: null,
    inkVolumeCm3PerM2: null,
    source,
  }
  return { ...named(threadsPerCm, threadUm), status: 'published', published }
}

/** A full row of the maker's table of "90 threads/cm = 225 threads/inch". */
function row(
  threadsPerCm: number,
  threadUm: number,
  printed: Readonly<{ opening: number; openArea: number; thickness: number; volume: number }>,
): Grade {
  const published: PublishedRow = {
    threadsPerCm: fromInch(225),
    openingUm: um(printed.opening),
    openAreaShare: share(printed.openArea),
    thicknessUm: um(printed.thickness),
    inkVolumeCm3PerM2: printed.volume,
    source: 'fabric-rows',
  }
  return { ...named(threadsPerCm, threadUm), status: 'published', published }
}
