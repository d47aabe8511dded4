import type { Units } from '../signs/Ruler.tsx'

const MM_PER_INCH = 25.4

/** What is missing, rounded up: with so much more it does fit. */
export function shortText(mm: number, units: Units): string {
  return units === 'metric'
    ? `${Math.ceil(mm - 1e-6)} mm`
    : `${(Math.ceil((mm / MM_PER_INCH) * 16 - 1e-6) / 16).toFixed(2)} in`
}
