import { type KnownMedium, type LikelyMedium, likelyMedia } from '../../core/film/mediumLooks.ts'
import type { MarksSeen } from '../../raster/photo/marksSeen.ts'

/** What the marks of a film look to be made with, and how far a photo tells that. */
export type LooksLike = Readonly<{
  /** The likeliest first: one, or two that the photo cannot tell apart, or none. */
  media: readonly LikelyMedium[]
  /** In a sentence. */
  says: string
}>

/** One is named alone from this chance on, two from that (judged). */
const ALONE = 0.75
const PAIR = 0.5
/** Marks are taken for denser than can be told from so near their limit on. */
const NEAR_LIMIT = 0.05

/**
 * @param sdOf standard deviation of a density
 * @param highest what is denser, the photo cannot tell
 */
export function looksLike(
  { density, grainShare }: MarksSeen,
  {
    media,
    sdOf,
    highest,
  }: Readonly<{
    media: readonly KnownMedium[]
    sdOf: (density: number) => number
    highest: number
  }>,
): LooksLike {
  if (density === null || media.length === 0) {
    return {
      media: [],
      says: 'Too little of the marks is wide enough to tell what they were made with.',
    }
  }
  const { low, middle, high } = density
  const [first, second] = likelyMedia(
    {
      density: middle,
      densitySd: sdOf(middle),
      isDenser: middle > highest - NEAR_LIMIT,
      grainShare,
      rangeShare: (high - low) / middle,
    },
    media,
  ).map(({ name, chance }) => ({ name, chance: Number(chance.toFixed(2)) }))
  if (first === undefined) return { media: [], says: '' }
  if (second === undefined || first.chance >= ALONE) {
    return { media: [first], says: `Looks like ${first.name}.` }
  }
  const both = `Looks like ${first.name} or ${second.name}`
  const says =
    first.chance + second.chance >= PAIR
      ? `${both}; the photo cannot tell which.`
      : `${both}, but it may well be something else.`
  return { media: [first, second], says }
}
