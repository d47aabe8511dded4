import { dayNumber, dayOfNumber, dayShort, monthShort } from '../days.ts'

/** A place on a scale and what stands there. */
export type Tick = Readonly<{ at: number; text: string }>

export type Span = Readonly<{ low: number; high: number }>

/** A straight scale from values to pixels. */
export type Line = Span & Readonly<{ px: (value: number) => number }>

/** @throws RangeError unless low < high */
export function lineScale(
  { low, high }: Span,
  { fromPx, toPx }: Readonly<{ fromPx: number; toPx: number }>,
): Line {
  if (!(low < high)) throw new RangeError(`lineScale: expected low < high, got ${low}, ${high}`)
  const perUnit = (toPx - fromPx) / (high - low)
  return { low, high, px: (value) => fromPx + (value - low) * perUnit }
}

/** The round step that parts a span into about so many. */
function roundStep({ low, high }: Span, about: number): number {
  const rough = (high - low) / Math.max(1, about)
  const decade = 10 ** Math.floor(Math.log10(rough))
  return [1, 2, 5, 10].map((part) => part * decade).find((each) => each >= rough) ?? rough
}

/** The span with its upper end moved out to a round number, which then stands at the top. */
export function roundSpan({ low, high }: Span, about: number): Span {
  const step = roundStep({ low, high }, about)
  return { low, high: Math.ceil(high / step - 1e-9) * step }
}

/** Round numbers inside a scale, about so many of them. */
export function roundTicks({ low, high }: Span, about: number): readonly Tick[] {
  const step = roundStep({ low, high }, about)
  const first = Math.ceil(low / step - 1e-9)
  const last = Math.floor(high / step + 1e-9)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => {
    const value = Number(((first + at) * step).toPrecision(12))
    return { at: value, text: String(value) }
  })
}

/** Days in words along a scale of days, none nearer to the next than `apartPx`. */
export function dayTicks(line: Line, apartPx: number): readonly Tick[] {
  const dayPx = line.px(1) - line.px(0)
  const everyDays = [1, 2, 7, 14].find((days) => days * dayPx >= apartPx)
  if (everyDays !== undefined) {
    const count = Math.floor((line.high - line.low) / everyDays) + 1
    return Array.from({ length: count }, (_, at) => {
      const day = Math.ceil(line.low) + at * everyDays
      return { at: day, text: dayShort(dayOfNumber(day)) }
    }).filter(({ at }) => at <= line.high)
  }
  const everyMonths =
    [1, 2, 3, 6, 12, 24, 60].find((months) => months * 30 * dayPx >= apartPx) ?? 120
  return monthsIn(line).flatMap((day) => {
    const [year = 0, month = 0] = day.split('-').map(Number)
    if ((year * 12 + month - 1) % everyMonths !== 0) return []
    const text = everyMonths >= 12 ? String(year) : monthShort(day)
    return [{ at: dayNumber(day), text }]
  })
}

/** The first of each month inside a scale of days. */
function monthsIn({ low, high }: Line): readonly string[] {
  const [year = 0, month = 1] = dayOfNumber(Math.ceil(low)).split('-').map(Number)
  const months: string[] = []
  for (let at = year * 12 + month - 1; ; at += 1) {
    const day = `${Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}-01`
    if (dayNumber(day) > high) return months
    if (dayNumber(day) >= low) months.push(day)
  }
}
