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

/** A length in mm as written, in mm or with the word for inches: 420, 16 in. */
export function lengthWritten(text: string, bounds: Bounds): Written {
  const inches = /^\s*([\d.,]+)\s*(?:in|")\s*$/.exec(text)?.[1]
  if (inches === undefined) return numberWritten(text.replace(/\s*mm\s*$/, ''), bounds)
  const written = numberWritten(inches, { low: bounds.low / 25.4, high: bounds.high / 25.4 })
  return written.kind === 'number' ? { kind: 'number', value: written.value * 25.4 } : written
}
