import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'tests/**/*.test.ts', 'gallery/**/*.test.ts'],
    reporters: ['default', './tests/closingLine.ts'],
    maxWorkers: '100%', // the default leaves one core idle, and much of the suite waits for servers
    testTimeout: 60_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 20_000 } }, // one second is not much on a busy machine
  },
})
