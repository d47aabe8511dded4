import { defineConfig } from 'vitest/config'

/** What takes minutes: run by `npm run test:long` alone. */
export default defineConfig({
  test: {
    include: [
      'tests/long/**/*.long.ts',
      'tests/server/kill.test.ts',
      'tests/server/start.test.ts',
      'tests/store/crash/kills.test.ts',
      'tests/store/disk/disk.test.ts',
      'tests/store/powerCut/powerCut.test.ts',
      'src/demo/films.test.ts',
      'tests/photos/*.test.ts',
      'tests/pages/{access,film,filmUpload,testsAccess}.test.ts',
    ],
    env: { THOROUGH: 'yes' },
    reporters: ['default', './tests/closingLine.ts'],
    testTimeout: 3_600_000,
  },
})
