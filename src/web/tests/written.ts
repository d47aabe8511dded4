/** What somebody wrote into a field: nothing yet, a number, or something else. */
export type Written =
  | Readonly<{ kind: 'nothing' }>
  | Readonly<{ kind: 'number'; value: number }>
  | Readonly<{ kind: 'wrong' }>

export type Bounds = Readonly<{ low: number; high: number; whole?: boolean }>

/** A number with a point or a comma, inside its bounds. */
export function numberWritten(text: string, { low, high, whole = false }: Bounds): Written {
  const plain = text.trim().replace(',', '.')
  if (plain === '') return { kind: 'nothing' }
  if (!/^\d+(\.\d+)?$/.test(plain)) return { kind: 'wrong' }
  const value = Number(plain)
  if (value < low || value > high || (whole && !Number.isInteger(value))) return { kind: 'wrong' }
  return { kind: 'number', value }
}

/** A clock's reading in seconds: 90, 1:30 or 1:02:00. */
export function clockWritten(text: string): Written {
  const plain = text.trim().replace(',', '.')
  if (plain === '') return { kind: 'nothing' }
  if (!/^(\d+:){0,2}\d+(\.\d+)?$/.test(plain)) return { kind: 'wrong' }
  const [last = 0, ...before] = plain.split(':').map(Number).toReversed()
  if (before.length > 0 && last >= 60) return { kind: 'wrong' }
  const value = before.reduce((sum, part, at) => sum + part * 60 ** (at + 1), last)
  return value <= 7200 ? { kind: 'number', value } : { kind: 'wrong' }
}

/** The number that stands there; null without one. */
export function valueOf(written: Written): number | null {
  return written.kind === 'number' ? written.value : null
}

/** What a dose on a counter can be. */
export const DOSE: Bounds = { low: 0.1, high: 100_000 }

const MM_PER_INCH = 25.4

/** A length in mm as written: in the page's units where none is said, else 420 mm or 16 in. */
export function lengthWritten(text: string, bounds: Bounds, units: 'metric' | 'imperial'): Written {
  const [, figures = text, said] = /^\s*([\d.,]+)\s*(mm|in|")\s*$/.exec(text) ?? []
  const inches = said === undefined ? units === 'imperial' : said !== 'mm'
  if (!inches) return numberWritten(figures, bounds)
  const { low, high } = bounds
  const written = numberWritten(figures, { low: low / MM_PER_INCH, high: high / MM_PER_INCH })
  return written.kind === 'number'
    ? { kind: 'number', value: written.value * MM_PER_INCH }
    : written
}

/** The same the other way round: as it would be written in the page's units. */
export function lengthEntry(mm: number, units: 'metric' | 'imperial'): string {
  return units === 'metric' ? String(Math.round(mm)) : String(Number((mm / MM_PER_INCH).toFixed(1)))
}
