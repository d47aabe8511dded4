/** What a device says of its clock. */
export type DeviceClock = Readonly<{
  /** Its time when it sent this, as ISO 8601. */
  sentAt: string
  /** Our clock less its own, as our answers told it; left out by one that heard none. */
  aheadMs?: number | undefined
}>

/**
 * Our clock less a device's, from what it sent.
 *
 * What was sent arrives later than that, by moments or by a night's sleep: by the arrival our clock
 * is ahead by at most so much. What the device found from our answers counts where it is less.
 *
 * @returns ms to add to a moment of the device
 */
export function oursLess({ sentAt, aheadMs }: DeviceClock, arrived: Date): number {
  const most = arrived.getTime() - Date.parse(sentAt)
  return aheadMs === undefined ? most : Math.min(most, aheadMs)
}
