/** How much ink lies where, row by row, 0 … 255. */
export type Cover = Readonly<{ widthPx: number; heightPx: number; ink: Uint8Array }>

/** Of a picture's points, as many may be lit: the rest of the page wants its share. */
export const MOST_LIT = 0.35
/** A point with this much ink is a mark. */
const MARK = 96

/**
 * What of a film's marks is lit beside unexposed emulsion: all of them where they are few, else
 * their edges, else threads of their edges, so that no more than MOST_LIT of the points are lit.
 *
 * @returns 1 where it is lit
 */
export function darkPicture({ widthPx, heightPx, ink }: Cover): Uint8Array {
  const marks = Uint8Array.from(ink, (lies) => (lies >= MARK ? 1 : 0))
  const most = MOST_LIT * marks.length
  if (count(marks) <= most) return marks
  const edges = marks.map((is, at) => (is === 1 && !isWithin(marks, { at, widthPx }) ? 1 : 0))
  for (let every = 1; every < heightPx; every++) {
    const threads = edges.map((is, at) => (Math.floor(at / widthPx) % every === 0 ? is : 0))
    if (count(threads) <= most) return threads
  }
  return new Uint8Array(marks.length)
}

/** All four beside it are marks too. */
function isWithin(
  marks: Uint8Array,
  { at, widthPx }: Readonly<{ at: number; widthPx: number }>,
): boolean {
  return [at - 1, at + 1, at - widthPx, at + widthPx].every((beside) => marks[beside] === 1)
}

function count(points: Uint8Array): number {
  return points.reduce((sum, is) => sum + is, 0)
}
