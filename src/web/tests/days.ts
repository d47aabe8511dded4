const DAY_MS = 86_400_000

/** A day as a number, so that days can be counted. */
export function dayNumber(day: string): number {
  return Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS)
}

export function dayOfNumber(number: number): string {
  return new Date(number * DAY_MS).toISOString().slice(0, 10)
}

/** Today where this device stands. */
export function today(): string {
  const now = new Date()
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()]
  return parts.map((part) => String(part).padStart(2, '0')).join('-')
}

/** The day as a form tells it: today goes without saying, for the shop's clock knows it better. */
export function onTold(on: string): Readonly<{ on?: string }> {
  return on === '' || on === today() ? {} : { on }
}

/** "3 November"; with its year where that is another one than that of `near`. */
export function dayWords(day: string, near: string): string {
  return written(day, {
    day: 'numeric',
    month: 'long',
    ...(day.slice(0, 4) === near.slice(0, 4) ? {} : { year: 'numeric' }),
  })
}

/** "3 Nov", for a table or a scale. */
export function dayShort(day: string): string {
  return `${Number(day.slice(8))} ${monthShort(day)}`
}

export function monthShort(day: string): string {
  return written(day, { month: 'long' }).slice(0, 3)
}

function written(day: string, how: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat('en-GB', { ...how, timeZone: 'UTC' }).format(
    new Date(dayNumber(day) * DAY_MS),
  )
}
