const WHOLE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0, useGrouping: false })
const TENTHS = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1, useGrouping: false })
const THREE = new Intl.NumberFormat('en-GB', { maximumSignificantDigits: 3, useGrouping: false })

/** A dose for people: tenths below 10, whole from there up. */
export function doseText(doseLu: number): string {
  return (doseLu < 10 ? TENTHS : WHOLE).format(doseLu)
}

/** A number on a scale: as it is, with three figures at most. */
export function scaleText(value: number): string {
  return THREE.format(value)
}

/** A value with as many figures as its range can bear: two of what it may be off by. */
export function borneText({
  value,
  low,
  high,
}: Readonly<{ value: number; low: number; high: number }>): string {
  const off = Math.abs(high - low) / 2
  const places = off > 0 ? Math.ceil(-Math.log10(off)) + (off >= 1 ? 0 : 1) : 2
  return String(Number(value.toFixed(Math.min(6, Math.max(0, places)))))
}

/** A time of day as people write it: 14:02. */
export function clockText(at: Date): string {
  return new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' }).format(at)
}

/** A day of a year as people write it in a sentence: 3 May 2026. */
export function dayOfYearText(at: Date): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'long' }).format(at)
}

/** A day as people write it, for what is printed. */
export function dayText(at: Date): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'full' }).format(at)
}
