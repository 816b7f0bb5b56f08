// Prints the gzip size of what the browser must fetch and run before the first screen: the entry script, its static imports and
// its style sheets. Fails when the script passes its budget. Run after `npm run build`.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'

interface Chunk {
  readonly file: string
  readonly isEntry?: boolean
  readonly imports?: readonly string[]
  readonly css?: readonly string[]
}

const BUDGET_BYTES = 250_000
const dist = join(import.meta.dirname, '../packages/web/dist')
const manifest = JSON.parse(readFileSync(join(dist, '.vite/manifest.json'), 'utf8')) as Record<string, Chunk>

const reached = new Set<string>()
const styles = new Set<string>()
for (const [key, chunk] of Object.entries(manifest)) if (chunk.isEntry === true) follow(key)

const scripts = [...reached].map((key) => sizeOf(manifest[key]?.file ?? ''))
const sheets = [...styles].map(sizeOf)
for (const { file, gzipBytes } of [...scripts, ...sheets]) console.log(`${kilobytes(gzipBytes).padStart(9)}  ${file}`)
const total = scripts.reduce((sum, { gzipBytes }) => sum + gzipBytes, 0)
console.log(`${kilobytes(total).padStart(9)}  script of the first screen, gzip (budget ${kilobytes(BUDGET_BYTES)})`)
if (scripts.length === 0 || total > BUDGET_BYTES) process.exitCode = 1

function follow(key: string): void {
  const chunk = manifest[key]
  if (chunk === undefined || reached.has(key)) return
  reached.add(key)
  for (const sheet of chunk.css ?? []) styles.add(sheet)
  for (const imported of chunk.imports ?? []) follow(imported)
}

function sizeOf(file: string): { file: string; gzipBytes: number } {
  return { file, gzipBytes: gzipSync(readFileSync(join(dist, file)), { level: 9 }).length }
}

function kilobytes(bytes: number): string {
  return `${(bytes / 1000).toFixed(1)} kB`
}
