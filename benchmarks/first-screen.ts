// What the browser must fetch and run before the first screen, as gzip: the entry script and its static imports. Run after `npm run build`.
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Measurement } from './measure.ts'

interface Chunk {
  readonly file: string
  readonly isEntry?: boolean
  readonly imports?: readonly string[]
}

const dist = join(import.meta.dirname, '../packages/web/dist')
const manifestFile = join(dist, '.vite/manifest.json')

export async function measure(): Promise<Measurement[]> {
  if (!existsSync(manifestFile))
    throw new Error('Cannot measure the first screen because the app is not built: run "npm run build" first')
  const manifest = JSON.parse(readFileSync(manifestFile, 'utf8')) as Readonly<Record<string, Chunk>>
  const entries = Object.keys(manifest).filter((key) => manifest[key]?.isEntry === true)
  if (entries.length === 0) throw new Error('Cannot measure the first screen because the build names no entry script')
  const scripts = [...reachedFrom(manifest, entries)].map((key) => readFileSync(join(dist, manifest[key]?.file ?? '')))
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

/** An entry and everything it imports before it can run. */
function reachedFrom(manifest: Readonly<Record<string, Chunk>>, entries: readonly string[]): Set<string> {
  const reached = new Set(entries)
  for (const key of reached) for (const imported of manifest[key]?.imports ?? []) reached.add(imported)
  return reached
}
