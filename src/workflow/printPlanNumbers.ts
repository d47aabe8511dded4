/** Tenths where they are something: 3, 4.8. */
export function tenths(value: number): string {
  return String(Math.round(10 * value) / 10)
}

/** How a plan is written: in the units of who reads it, in the shop's money. */
export type PlanWriting = Readonly<{
  units: 'metric' | 'imperial'
  /** By ISO 4217; null: nobody said, and amounts stand alone. */
  currency: string | null
}>

type Units = PlanWriting['units']

const MM_PER_INCH = 25.4
const GRAMS_PER_OUNCE = 28.349523125
/** Of the United States. */
const CM3_PER_FLUID_OUNCE = 29.5735295625
const UM_PER_MIL = 25.4

/** A length of the press: 3 mm, 0.12 in. */
export function lengthText(lengthMm: number, units: Units): string {
  return units === 'metric' ? `${tenths(lengthMm)} mm` : `${hundredths(lengthMm / MM_PER_INCH)} in`
}

/** A small one: 0.34 mm, 0.013 in. */
export function fineText(lengthMm: number, units: Units): string {
  return units === 'metric'
    ? `${lengthMm.toFixed(2)} mm`
    : `${(lengthMm / MM_PER_INCH).toFixed(3)} in`
}

/** As a ruler reads it: 99.75 mm, 3.927 in. */
export function barText(lengthMm: number, units: Units): string {
  return units === 'metric'
    ? `${Math.round(100 * lengthMm) / 100} mm`
    : `${(lengthMm / MM_PER_INCH).toFixed(3)} in`
}

/** A sheet's side: 500 mm, 19.7 in. */
export function sideText(lengthMm: number, units: Units): string {
  return units === 'metric' ? `${Math.round(lengthMm)} mm` : `${tenths(lengthMm / MM_PER_INCH)} in`
}

/** A weight as a scale shows it, of whole grams: 190 g, 6.70 oz. */
export function weightText(grams: number, units: Units): string {
  return units === 'metric'
    ? `${Math.round(grams)} g`
    : `${(grams / GRAMS_PER_OUNCE).toFixed(2)} oz`
}

/** A volume of ink, without its unit: that is `volumeUnit`. */
export function volumeFigure(cm3: number, units: Units): string {
  if (units === 'imperial') return tenths(cm3 / CM3_PER_FLUID_OUNCE)
  return cm3 < 10 ? tenths(cm3) : String(Math.round(cm3))
}

export function volumeUnit(units: Units): string {
  return units === 'metric' ? 'cm³' : 'fl oz'
}

/** A layer of ink, without its unit: 21 µm, 0.8 mil, a thousandth of an inch. */
export function filmFigure(thickUm: number, units: Units): string {
  return units === 'metric' ? String(Math.round(thickUm)) : tenths(thickUm / UM_PER_MIL)
}

export function filmUnit(units: Units): string {
  return units === 'metric' ? 'µm' : 'mil'
}

/** 125 cm², 19.4 sq in. */
export function areaText(cm2: number, units: Units): string {
  return units === 'metric'
    ? `${Math.round(cm2)} cm²`
    : `${tenths((100 * cm2) / MM_PER_INCH ** 2)} sq in`
}

/**
 * An amount of the shop's money: €1.79, JPY 230; without a currency 1.79. A sign that our letters
 * do not have gives way to the code.
 *
 * @param currency by ISO 4217
 */
export function moneyText(amount: number, currency: string | null): string {
  if (currency === null) return amount.toFixed(2)
  const written = (currencyDisplay: 'narrowSymbol' | 'code'): string =>
    new Intl.NumberFormat('en-GB', { style: 'currency', currency, currencyDisplay })
      .format(amount)
      .replaceAll('\u00a0', ' ')
  const short = written('narrowSymbol')
  return /^[\w\s.,€£$¥-]*$/.test(short) ? short : written('code')
}

function hundredths(value: number): string {
  return String(Math.round(100 * value) / 100)
}

/** 45 min, 2 h 5 min. */
export function minutesText(minutes: number): string {
  const whole = Math.max(1, Math.round(minutes))
  const [hours, rest] = [Math.floor(whole / 60), whole % 60]
  if (hours === 0) return `${whole} min`
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`
}

/** One, two and three. */
export function listed(parts: readonly string[]): string {
  return parts.length < 2
    ? parts.join('')
    : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`
}

/** As a sentence begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
