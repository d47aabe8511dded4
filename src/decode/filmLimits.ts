import type { Range } from '../core/units/range.ts'

/** What we take on, known from the head of a file before a pixel is decoded. */
export const MOST_FILE_BYTES: Readonly<Record<'tiff' | 'other', number>> = {
  tiff: 8 * 2 ** 30,
  other: 512 * 2 ** 20,
}

export const MOST_PIXELS = 1.5e9
export const MOST_SIDE_PX = 200_000

/** Interlaced PNG, progressive JPEG and WebP are whole in memory while decoded: 4 bytes a pixel. */
export const MOST_PIXELS_WHOLE = 150e6

export const RESOLUTION_DPI: Range = { name: 'resolutionDpi', low: 50, high: 6000, unit: 'dpi' }
export const SOLID_DENSITY: Range = { name: 'solidDensity', low: 0.3, high: 6, unit: 'D' }
export const MAP_DENSITY: Range = { name: 'density', low: -0.1, high: 10, unit: 'D' }

/** Resolutions nearer than this share are the same: what rounding to whole numbers does. */
export const SAME_RESOLUTION_SHARE = 0.001
