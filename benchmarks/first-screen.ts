// What the browser must fetch and run before the first screen, as gzip: the script that the page names and the
// one that this adds first. Run after `npm run build`.
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Measurement } from './measure.ts'

const dist = join(import.meta.dirname, '../packages/web/dist')
const pageFile = join(dist, 'index.html')
const SCRIPTS = /<script\b[^>]* src="([^"]+)" data-then="([^"]+)"/

export async function measure(): Promise<Measurement[]> {
  if (!existsSync(pageFile))
    throw new Error('Cannot measure the first screen because the app is not built: run "npm run build" first')
  const [, ...names] = SCRIPTS.exec(readFileSync(pageFile, 'utf8')) ?? []
  if (names.length === 0) throw new Error('Cannot measure the first screen because the page names no script')
  const scripts = names.map((name) => readFileSync(join(dist, name)))
  const bytes = scripts.reduce((sum, script) => sum + script.length, 0)
  const gzipBytes = scripts.reduce((sum, script) => sum + gzipSync(script, { level: 9 }).length, 0)
  return [
    {
      what: 'script of the first screen, gzip',
      value: gzipBytes / 1000,
      unit: 'kB',
      budget: 200,
      ratio: { to: 'the same script unpacked', times: gzipBytes / bytes },
    },
  ]
}
