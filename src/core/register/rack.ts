/** A place in a rack, as people write it: `B 3`. */
export type Slot = Readonly<{ rack: string; place: number }>

/** Reads `B 3`, `B3`, `b-3`; null for anything else, which may still be a place with a name. */
export function slotOf(text: string): Slot | null {
  const [, rack, place] = /^\s*([A-Za-z]{1,3})[\s.-]*(\d{1,3})\s*$/.exec(text) ?? []
  if (rack === undefined || place === undefined) return null
  return { rack: rack.toUpperCase(), place: Number(place) }
}

/** As it is kept: `B 3`; other words as they are. */
export function slotText(text: string): string {
  const slot = slotOf(text)
  return slot === null ? text.trim() : `${slot.rack} ${slot.place}`
}

/** The places of a rack around one, five where there are so many, from left to right. */
export function slotsAround({ place }: Slot): readonly number[] {
  const first = Math.max(1, place - 2)
  return [0, 1, 2, 3, 4].map((at) => first + at)
}

/** Tags that are free, after the highest that is a number. */
export function nextTags(
  taken: readonly string[],
  { count }: Readonly<{ count: number }>,
): string[] {
  const numbers = taken.filter((tag) => /^\d{1,6}$/.test(tag)).map(Number)
  const highest = Math.max(0, ...numbers)
  return Array.from({ length: count }, (_, at) => String(highest + at + 1))
}

/** Tags as people have them in order: by their number, others after. */
export function byTag(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true })
}
