import type { Circumstances } from '../core/calibration/belief/evidence.ts'
import type { Question } from '../core/calibration/belief/question.ts'
import type { Kept } from '../core/calibration/belief/replay.ts'
import { marksOf } from '../core/calibration/belief/update.ts'
import { plainName } from '../core/units/plainName.ts'

/** Names of the things that one problem can hold: the belief keeps how each goes with each. */
export const NAMES_AT_MOST = 500

type Told = Readonly<{ evidence: readonly Kept[]; ask: readonly Question[] }>

/**
 * Screens and films that are named only once, without their names: a screen that nothing else is
 * said of is one of its own, named or not, and the belief need not remember it.
 */
export function withoutLoneNames({ evidence, ask }: Told): readonly Kept[] {
  const [screens, films] = (['screen', 'film'] as const).map((kind) => {
    const times = new Map<string, number>()
    for (const each of [...evidence, ...ask]) {
      const name = each[kind]
      if (name !== undefined) times.set(name, (times.get(name) ?? 0) + 1)
    }
    return times
  })
  return evidence.map((each) => {
    const lone = {
      screen: screens?.get(each.screen ?? '') === 1,
      film: films?.get(each.film ?? '') === 1,
    }
    if (!lone.screen && !lone.film) return each
    return {
      ...each,
      screen: lone.screen ? undefined : each.screen,
      film: lone.film ? undefined : each.film,
    }
  })
}

/** How many names the belief would have to keep at once; dated screens and films are forgotten. */
export function namesKept(told: Told): number {
  const names = new Set<string>()
  const see = (kind: string, name: string | undefined): void => {
    if (name !== undefined) names.add(`${kind} ${name}`)
  }
  const seeAll = (place: Circumstances): void => {
    see('unit', place.unit)
    see('emulsion', place.emulsion)
    see('fabric', place.fabric)
    see('recipe', place.recipe)
    if (place.day === undefined) {
      see('screen', place.screen)
      see('film', place.film)
    }
  }
  for (const each of withoutLoneNames(told)) {
    seeAll(each)
    for (const marks of marksOf(each))
      if (!('density' in marks)) see('medium', plainName(marks.medium))
  }
  return names.size
}
