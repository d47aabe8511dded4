import type { ScaleCheck } from '../core/filmQueue/scaleCheck.ts'
import { fineText, type PlanWriting } from './printPlanNumbers.ts'

type Units = PlanWriting['units']

/** What a measured scale bar says, and what to do. */
export function scaleSays(check: ScaleCheck, units: Units = 'metric'): readonly string[] {
  const { is, offShare, ways, overFilm, likely, setPercent } = check
  if (is === 'true') {
    const both = ways === null ? 'True along it' : 'True both ways'
    const says =
      overFilm === null || overFilm.unseenMm < LEAST_MM
        ? `${both}, as far as a ruler tells.`
        : `${both}, as far as a ruler tells: over the whole film up to ${longText(overFilm.unseenMm, units)} could hide.`
    return ways === null
      ? [says, 'Across it nobody measured: a feed that slips shows there alone.']
      : [says]
  }
  if (ways !== null && ways.are !== 'alike') return stretchedSays(check, ways, units)
  const way = offShare > 0 ? 'too large' : 'too small'
  const over =
    overFilm === null ? '' : `, ${longText(Math.abs(overFilm.offMm), units)} over the whole film`
  const alike = ways === null ? '' : ' both ways'
  const off = `${tenths(100 * Math.abs(offShare))} in 100 ${way}${alike}${over}.`
  switch (likely) {
    case 'fitted to another paper':
      return [
        off,
        'A4 and Letter were mixed up: choose the paper that lies there, at 100 %, and print it again.',
      ]
    case 'fitted to the page':
      return [off, 'It was fitted to the page: print it again at 100 %, without fitting.']
    default:
      return ways === null
        ? [
            off,
            `Measure across it too. Off alike: set the scale to ${setPercent.toFixed(1)} % and print it again. Off one way: it is the printer’s feed.`,
          ]
        : [off, `Set the scale to ${setPercent.toFixed(1)} % and print it again.`]
  }
}

/** The two ways differ: no scale puts that right. */
function stretchedSays(
  { overFilm }: ScaleCheck,
  { are, alongShare, acrossShare }: NonNullable<ScaleCheck['ways']>,
  units: Units,
): readonly string[] {
  const wayOf = (share: number): string =>
    Math.abs(share) < 0.0005
      ? 'true'
      : `${tenths(100 * Math.abs(share))} in 100 ${share > 0 ? 'too long' : 'too short'}`
  const apart = Math.abs(alongShare - acrossShare)
  const over =
    overFilm === null || overFilm.longMm * apart < LEAST_MM
      ? ''
      : `: ${longText(overFilm.longMm * apart, units)} over the long side`
  return [
    `Along it is ${wayOf(alongShare)}, across it ${wayOf(acrossShare)}. It is stretched ${are === 'stretched along' ? 'along' : 'across'} by ${tenths(100 * apart)} in 100${over}.`,
    'No scale puts that right: it is the printer’s feed, or a sheet that was pulled while it was warm. Clean the rollers, lay the sheets straight and print it again. For a print of several layers it counts that all films agree: make them all on this printer, the same way round.',
  ]
}

/** What nobody sees on a print need not be said. */
const LEAST_MM = 0.3

function longText(lengthMm: number, units: Units): string {
  return units === 'metric' ? `${tenths(lengthMm)} mm` : fineText(lengthMm, units)
}

function tenths(value: number): string {
  return value < 0.95 ? value.toFixed(1) : String(Math.round(value * 10) / 10)
}
