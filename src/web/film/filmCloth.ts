import type { FilmForecast } from '../../api/films.ts'
import type { Cloth } from '../../api/light.ts'

/**
 * The cloth of a film: its own marks along, in equal shares; the ground's chance across as Light
 * knows it. While Light has not answered, the best estimates stand for it without any doubt.
 */
export function filmCloth(forecast: FilmForecast, light: Cloth | null): Cloth {
  const along = forecast.along.length > 0 ? forecast.along : (light?.along ?? [])
  if (light !== null) return { ...light, along }
  const lowLu = forecast.holdDoseLu / 1.6
  const highLu = Math.max(forecast.throughDoseLu, along.at(-1) ?? 0, 2 * lowLu) * 1.2
  const doses = Array.from({ length: 32 }, (_, at) => lowLu * (highLu / lowLu) ** (at / 31))
  const holds = (doseLu: number): number => (doseLu >= forecast.holdDoseLu ? 1 : 0)
  const opens = (doseLu: number): number =>
    along.filter((upTo) => upTo >= doseLu).length / Math.max(1, along.length)
  const woven = doses.map((doseLu) => ({ doseLu, chance: holds(doseLu) * opens(doseLu) }))
  return {
    lowLu,
    highLu,
    along,
    across: doses.map((doseLu) => ({ doseLu, share: holds(doseLu) })),
    good: woven,
    woven,
  }
}

/** How many screens of ten come out good at a dose: what Light says of its own, at any other. */
export function screensInTenAt({ good }: Cloth, doseLu: number): number {
  const after = good.findIndex((point) => point.doseLu >= doseLu)
  const high = good[after === -1 ? good.length - 1 : after]
  const low = good[after <= 0 ? 0 : after - 1]
  if (high === undefined || low === undefined) return 0
  const span = Math.log(high.doseLu / low.doseLu)
  const part = span > 0 ? Math.log(doseLu / low.doseLu) / span : 0
  return Math.round(10 * (low.chance + (high.chance - low.chance) * Math.min(1, Math.max(0, part))))
}

/** The least dose at which the ground is more likely to hold than not. */
export function holdsFromLu({ across, highLu }: Cloth): number {
  return across.find(({ share }) => share >= 0.5)?.doseLu ?? highLu
}
