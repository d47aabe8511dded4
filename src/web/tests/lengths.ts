import type { Units } from '../signs/Ruler.tsx'

const MM_PER_INCH = 25.4
const SIXTEENTHS = 16

/** A length as one lays it with a ruler: 86 mm, or 3 3/8 in. */
export function rulerText(mm: number, units: Units): string {
  if (units === 'metric') return `${Math.round(mm)} mm`
  const parts = Math.round((mm / MM_PER_INCH) * SIXTEENTHS)
  const [whole, rest] = [Math.floor(parts / SIXTEENTHS), parts % SIXTEENTHS]
  if (rest === 0) return `${whole} in`
  const shared = [8, 4, 2, 1].find((part) => rest % part === 0) ?? 1
  const fraction = `${rest / shared}/${SIXTEENTHS / shared}`
  return whole === 0 ? `${fraction} in` : `${whole} ${fraction} in`
}
