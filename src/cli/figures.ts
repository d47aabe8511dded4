/** A number as people read it: three figures, no exponent, no trailing zeros. */
export function figures(value: number, significant = 3): string {
  if (value === 0) return '0'
  const decimals = Math.max(0, significant - 1 - Math.floor(Math.log10(Math.abs(value))))
  const text = value.toFixed(Math.min(decimals, 20))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

/** A part of a whole as people say it: `32.3 %`. */
export function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`
}

/** Two columns: what it is, and how much; the second begins where the longest first ends. */
export function columns(rows: readonly (readonly [string, string])[]): string {
  const widest = Math.max(...rows.map(([what]) => what.length))
  return rows.map(([what, much]) => `${what.padEnd(widest)}  ${much}`).join('\n')
}
