/** What we take on of a photo. */
export const PHOTO_LIMITS: Readonly<Record<'bytes' | 'pixels' | 'leastSidePx', number>> = {
  bytes: 80 * 2 ** 20,
  pixels: 60e6,
  leastSidePx: 200,
}
