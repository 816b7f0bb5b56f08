import { defineConfig } from 'vitest/config'

// One file at a time: each of them keeps both processors busy by itself.
export default defineConfig({
  test: {
    root: import.meta.dirname,
    include: ['**/*.test.ts'],
    testTimeout: 60 * 60_000,
    hookTimeout: 60_000,
    maxWorkers: 1,
    fileParallelism: false,
  },
})
