import { requireBuiltApp, startApp } from '../../scripts/phases/running-app.ts'

/**
 * Starts one app for all browser tests, unless RILLMARK_URL names one that runs already and RILLMARK_DATA its data folder; gives back how to
 * stop it.
 */
export default async function setUp(): Promise<(() => Promise<void>) | undefined> {
  if (process.env['RILLMARK_URL'] !== undefined) return undefined
  requireBuiltApp()
  const app = await startApp()
  process.env['RILLMARK_URL'] = app.url
  process.env['RILLMARK_DATA'] = app.dataFolder
  return app.stop
}
