import { defineConfig } from 'vitest/config'

/** What takes minutes: run by `npm run test:long` alone. */
export default defineConfig({
  test: {
    include: ['tests/long/**/*.long.ts'],
    reporters: ['default', './tests/closingLine.ts'],
    testTimeout: 3_600_000,
  },
})
