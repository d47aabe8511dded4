import type { Units } from '../signs/Ruler.tsx'

/** What is counted in a field. */
export type Measure = 'length' | 'weight' | 'volume' | 'pricePerWeight' | 'plain'

const GRAMS_PER_POUND = 453.59237
const CM3_PER_FLUID_OUNCE = 29.5735295625

type Scale = Readonly<{ metric: string; imperial: string; per: Readonly<Record<string, number>> }>

/** Each unit that may be written, in the metric one. */
const SCALES: Readonly<Partial<Record<Measure, Scale>>> = {
  length: { metric: 'mm', imperial: 'in', per: { mm: 1, cm: 10, in: 25.4, '"': 25.4 } },
  weight: {
    metric: 'g',
    imperial: 'oz',
    per: { g: 1, kg: 1000, oz: GRAMS_PER_POUND / 16, lb: GRAMS_PER_POUND },
  },
  volume: {
    metric: 'cm³',
    imperial: 'fl oz',
    per: { 'cm³': 1, cm3: 1, ml: 1, l: 1000, 'fl oz': CM3_PER_FLUID_OUNCE },
  },
  pricePerWeight: {
    metric: 'a kg',
    imperial: 'a lb',
    per: { 'a kg': 1, 'a lb': 1000 / GRAMS_PER_POUND },
  },
}

/** What stands beside the field; nothing for plain numbers. */
export function amountUnit(measure: Measure, units: Units): string | undefined {
  return SCALES[measure]?.[units]
}

/**
 * What was written, in mm, g, cm³ or a kilogram's price: in the page's units where none is said,
 * else as said, like 16 in or 8 oz.
 *
 * @returns null for what is no amount
 */
export function amountWritten(text: string, measure: Measure, units: Units): number | null {
  const [, figures = '', said = ''] =
    /^\s*(\d{1,6}(?:[.,]\d{1,4})?)\s*(\D*?)\s*$/.exec(text.toLowerCase()) ?? []
  if (figures === '') return null
  const value = Number(figures.replace(',', '.'))
  const scale = SCALES[measure]
  if (scale === undefined) return said === '' ? value : null
  const per = scale.per[said === '' ? scale[units] : said]
  return per === undefined ? null : value * per
}

/** The other way round: as it would be written in the page's units. */
export function amountEntry(
  value: number | null | undefined,
  measure: Measure,
  units: Units,
): string {
  if (value === null || value === undefined) return ''
  const scale = SCALES[measure]
  const own = scale === undefined ? value : value / (scale.per[scale[units]] ?? 1)
  return String(Number(own.toFixed(units === 'metric' ? 2 : 3)))
}
