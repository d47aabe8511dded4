/** A figure of 100 as it is written; NaN for what is none, or no chance. */
export function chanceIn(text: string): number {
  const value = Number(text.trim().replace(',', '.'))
  return text.trim() !== '' && value >= 0.1 && value <= 99.9 ? value / 100 : Number.NaN
}

/** A chance as somebody would write it: 5, 12.5. */
export function chanceText(chance: number): string {
  return String(Math.round(chance * 1000) / 10)
}
