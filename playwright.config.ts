import { defineConfig } from '@playwright/test'
import { chromiumLaunchOptions } from './scripts/phases/chromium.ts'

// RILLMARK_URL is set by the global set-up, which starts the app on a free port and temporary data;
// set it beforehand to test an app that is already running.
export default defineConfig({
  testDir: 'tests/browser',
  outputDir: 'test-results',
  globalSetup: './tests/browser/set-up.ts',
  workers: 1,
  retries: 0,
  forbidOnly: true,
  timeout: 420_000,
  expect: { timeout: 10_000 },
  reporter: 'list',
  use: {
    ...(process.env['RILLMARK_URL'] === undefined ? {} : { baseURL: process.env['RILLMARK_URL'] }),
    browserName: 'chromium',
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    screenshot: 'only-on-failure',
    // Tests see the server as it is; those of the app without a network ask for the service worker themselves.
    serviceWorkers: 'block',
    launchOptions: chromiumLaunchOptions(),
  },
})
