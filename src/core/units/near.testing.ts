import { expect } from 'vitest'

/** A comparison that must say why its tolerance is what it is; NaN never passes. */
export function near(
  value: number,
  expected: number,
  { within, because }: Readonly<{ within: number; because: string }>,
): void {
  const off = Math.abs(value - expected)
  expect(off <= within, `${value} is ${off} from ${expected}, allowed ${within}: ${because}`).toBe(
    true,
  )
}
