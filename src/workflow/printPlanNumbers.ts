/** Tenths where they are something: 3, 4.8. */
export function tenths(value: number): string {
  return String(Math.round(10 * value) / 10)
}

/** An amount of the shop's money. */
export function money(amount: number): string {
  return amount.toFixed(2)
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
