import { expect, test } from 'vitest'
import type { Bench } from './bench.ts'
export function migrationSuite(_: Bench): void {
  test('todo', () => expect(1).toBe(1))
}
