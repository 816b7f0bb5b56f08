import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: [
      'packages/*/src/**/*.test.ts',
      'checks/**/*.test.ts',
      'reference/**/*.test.ts',
      'scripts/**/*.test.ts',
      'demo/**/*.test.ts',
    ],
    setupFiles: ['scripts/vitest/pin-seeds.ts'],
    testTimeout: 30_000,
    maxWorkers: 2,
  },
})
