import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/{unit,page,imaging,storage,repo}/**/*.test.{ts,tsx}'],
    environment: 'node',
    setupFiles: ['tests/set-up.ts'],
    testTimeout: 20_000,
  },
})
