/** Seconds as a clock shows them: 1:12. Whole seconds are still full ones when they begin. */
export function minutesText(sec: number): string {
  const whole = Math.max(0, Math.ceil(sec))
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}

/** A count as counters show it: tenths below 10. */
export function countText(count: number): string {
  return count < 10 ? String(Math.round(count * 10) / 10) : String(Math.round(count))
}
