import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/e2e/**/*.test.ts'],
    environment: 'node',
    // Two browsers at once on a small machine make each other late.
    fileParallelism: false,
    testTimeout: 90_000,
    hookTimeout: 90_000,
  },
})
