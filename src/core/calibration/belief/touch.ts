import { soundRise } from '../../emulsion/soundRise.ts'
import type { Circumstances, Marks } from './evidence.ts'
import type { Row } from './gaussian.ts'
import { coatEntry, filmEntry, groundEntries, marksEntry } from './names.ts'
import { PRIORS } from './priors.ts'
import { type Belief, SHARED, withEntries } from './state.ts'

/** An exposure's own numbers as sums of the state's. */
export type Touched = Readonly<{
  /** With the entries it needs, an unnamed screen and film too. */
  belief: Belief
  /** Where those entries stand. */
  places: readonly number[]
  /** z1 = hold + unit + batch + fabric + recipe + screen. */
  hold: Row
  /** z1 less log10(hold/skin). */
  skin: Row
  /** z2 = z1 + sound, and what is open about a thick coat. */
  sound: Row
  /** z3 = z1 − skin + medium + film, one for each of the marks. */
  fog: readonly Row[]
}>

/**
 * What an exposure touches: the log10 doses at which its ground holds and is sound and at which its
 * marks fog over, as rows over the belief's entries.
 *
 * Another film base than the usual shifts them all by the difference; a coat of another thickness
 * shifts the sound dose, and a thick one leaves it in more doubt.
 *
 * @param marks none for a wedge; several for a film that mixes media, whose one film they share
 * @source belief-priors, sound-dose, iso5-1
 */
export function touched(
  belief: Belief,
  circumstances: Circumstances,
  marks: readonly Marks[] = [],
): Touched {
  const ground = Object.values(groundEntries(belief, circumstances))
  const film = marks.every((each) => 'density' in each) ? [] : [filmEntry(circumstances)]
  const densities = marks.map((each) => marksEntry(each, circumstances))
  const thick = coatEntry(circumstances)
  const known = withEntries(belief, [
    ...ground,
    ...film,
    ...densities,
    ...(thick === null ? [] : [thick]),
  ])
  const { places } = known

  const { baseDensity, coat } = circumstances
  const shift = baseDensity === undefined ? 0 : baseDensity - belief.shop.usualBaseDensity
  const rise = coat === undefined ? 0 : soundRise(coat).log10 - PRIORS.sound.mean
  const hold = plus({ at: [], times: [], offset: shift }, [
    SHARED.hold,
    ...places.slice(0, ground.length),
  ])
  const skin: Row = { ...hold, at: [...hold.at, SHARED.skin], times: [...hold.times, -1] }
  const open = thick === null ? [] : places.slice(-1)
  const sound = plus(hold, [SHARED.sound, ...open])
  const fog = marks.map((each, at) => {
    const own = places[ground.length + film.length + at] ?? 0
    return plus(skin, 'density' in each ? [own] : [own, places[ground.length] ?? 0])
  })
  return {
    belief: known.belief,
    places,
    hold,
    skin,
    sound: { ...sound, offset: sound.offset + rise },
    fog,
  }
}

function plus(row: Row, at: readonly number[]): Row {
  return { ...row, at: [...row.at, ...at], times: [...row.times, ...at.map(() => 1)] }
}
