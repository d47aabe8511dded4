import { defineConfig } from 'vitest/config'

/** Folders whose tests leave nothing behind in their process. */
const PURE = 'src/{api,core,demo,formats,raster,web,workflow}/**/*.test.ts'

export default defineConfig({
  test: {
    reporters: ['default', './tests/closingLine.ts'],
    maxWorkers: '100%', // the default leaves one core idle, and much of the suite waits for servers
    testTimeout: 60_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 20_000 } }, // one second is not much on a busy machine
    projects: [
      // a process for each file would take longer than its tests
      { extends: true, test: { name: 'pure', include: [PURE], isolate: false } },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['src/**/*.test.ts', 'tests/**/*.test.ts', 'gallery/**/*.test.ts'],
          exclude: [PURE],
        },
      },
    ],
  },
})
