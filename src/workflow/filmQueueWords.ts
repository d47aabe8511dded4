import type { ScaleCheck } from '../core/filmQueue/scaleCheck.ts'

/** What a measured scale bar says, and what to do. */
export function scaleSays({
  is,
  offShare,
  overFilm,
  likely,
  setPercent,
}: ScaleCheck): readonly string[] {
  if (is === 'true') {
    return [
      overFilm === null || overFilm.unseenMm < LEAST_MM
        ? 'True, as far as a ruler tells.'
        : `True, as far as a ruler tells: over the whole film up to ${tenths(overFilm.unseenMm)} mm could hide.`,
    ]
  }
  const way = offShare > 0 ? 'too large' : 'too small'
  const over =
    overFilm === null ? '' : `, ${tenths(Math.abs(overFilm.offMm))} mm over the whole film`
  const off = `${tenths(100 * Math.abs(offShare))} in 100 ${way}${over}.`
  switch (likely) {
    case 'fitted to another paper':
      return [
        off,
        'A4 and Letter were mixed up: choose the paper that lies there, at 100 %, and print it again.',
      ]
    case 'fitted to the page':
      return [off, 'It was fitted to the page: print it again at 100 %, without fitting.']
    default:
      return [
        off,
        `Measure the other way too. Off alike: set the scale to ${setPercent.toFixed(1)} % and print it again. Off one way: it is the printer’s feed.`,
      ]
  }
}

/** What nobody sees on a print need not be said. */
const LEAST_MM = 0.3

function tenths(value: number): string {
  return value < 0.95 ? value.toFixed(1) : String(Math.round(value * 10) / 10)
}
