import { z } from 'zod'

/** A number in an address, as `?frameMm=20`; one that says nothing, as `?frameMm=`, is no number. */
export function queryNumber(range: z.ZodCoercedNumber): z.ZodType<number> {
  return z.preprocess(
    (text) => (typeof text === 'string' && text.trim() === '' ? Number.NaN : text),
    range,
  )
}
