// Two hundred devices come back with fifty thousand signed entries and two gigabytes of photos, to one server process over HTTP; beside plain
// inserts of the same bytes into SQLite in the same run. Recorded with `node benchmarks/run.ts sync`.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { startServer } from '../tests/faults/server-process.ts'
import type { Measurement } from './measure.ts'
import { DEVICES, makeLoads, totals } from './sync/load.ts'
import { plainInserts } from './sync/plain-inserts.ts'
import { type Pace, sendLoads, type Sent } from './sync/send-load.ts'

const GOAL_P99_MS = 200
/** A minute of two hundred devices. */
const MINUTE_MS = 60_000 * Number(process.env['RILLMARK_SYNC_SCALE'] ?? 1)
const MB = 1_000_000

const PACES: readonly (Pace & { readonly what: string; readonly waiting: boolean })[] = [
  { what: 'back within a minute', comeOverMs: MINUTE_MS, lastsMs: 0, waiting: false },
  { what: 'side by side for a minute', comeOverMs: MINUTE_MS / 5, lastsMs: MINUTE_MS, waiting: false },
  { what: 'all at full speed from one moment', comeOverMs: 0, lastsMs: 0, waiting: true },
]

export async function measure(): Promise<Measurement[]> {
  const rows: Measurement[] = []
  for (const pace of PACES) rows.push(...(await measured(pace)))
  return rows
}

async function measured({ what, waiting, ...pace }: (typeof PACES)[number]): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-sync-'))
  const loads = makeLoads()
  const server = await startServer({ dataFolder: join(folder, 'data') })
  try {
    const sent = await sendLoads(loads, { ...pace, url: server.url })
    const memoryMb = peakMemoryMb(server.pid)
    const processorMs = processorTimeMs(server.pid)
    await server.kill()
    return rowsOf({
      what: `${DEVICES} devices ${what}`,
      sent,
      memoryMb,
      processorMs,
      waiting,
      plainMs: plainInserts(folder, loads),
      ...totals(loads),
    })
  } finally {
    await server.kill()
    rmSync(folder, { recursive: true, force: true })
  }
}

interface Found {
  readonly what: string
  readonly sent: Sent
  readonly memoryMb: number
  readonly processorMs: number
  /** More is sent than can be worked off: all wait for each other. */
  readonly waiting: boolean
  readonly plainMs: number
  readonly entries: number
  readonly entryBytes: number
  readonly photoBytes: number
}

function rowsOf(found: Found): Measurement[] {
  const { what, sent, memoryMb, processorMs, waiting, plainMs, entries, entryBytes, photoBytes } = found
  const goal = waiting ? { note: 'all wait for each other' } : { budget: GOAL_P99_MS }
  const bytes = `${entries} entries of ${Math.round(entryBytes / MB)} MB, ${Math.round(photoBytes / MB)} MB of photos`
  return [
    {
      what: `${what}: ${bytes}`,
      value: sent.wholeMs / 1000,
      unit: 's',
      ratio: { to: 'plain SQLite inserts of the same bytes', times: sent.wholeMs / plainMs },
    },
    { what: 'a batch of entries acknowledged, half of them', value: part(sent.batchMs, 0.5), unit: 'ms' },
    { what: 'a batch of entries acknowledged, 99 of 100', value: part(sent.batchMs, 0.99), unit: 'ms', ...goal },
    { what: 'batches with a second account', value: sent.contestMs.length, unit: '' },
    { what: 'such a batch acknowledged, half of them', value: part(sent.contestMs, 0.5), unit: 'ms' },
    { what: 'such a batch acknowledged, 99 of 100', value: part(sent.contestMs, 0.99), unit: 'ms', ...goal },
    { what: 'a pull, 99 of 100', value: part(sent.pullMs, 0.99), unit: 'ms' },
    { what: 'a piece of a photo, 99 of 100', value: part(sent.pieceMs, 0.99), unit: 'ms' },
    { what: 'entries a second', value: entries / (sent.wholeMs / 1000), unit: '/s' },
    { what: 'photos', value: photoBytes / MB / (sent.wholeMs / 1000), unit: 'MB/s' },
    { what: 'processor time of the server', value: processorMs / 1000, unit: 's' },
    { what: 'most memory of the server', value: memoryMb, unit: 'MB' },
  ]
}

function part(times: readonly number[], share: number): number {
  const sorted = times.toSorted((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN
}

/** The most a process ever held in memory, as Linux counts it (proc(5): VmHWM); elsewhere it isn't known. */
function peakMemoryMb(pid: number): number {
  const kB = /VmHWM:\s+(\d+) kB/.exec(read(`/proc/${pid}/status`))?.[1]
  return kB === undefined ? Number.NaN : (Number(kB) * 1024) / MB
}

const TICKS_A_SECOND = 100

/** User and system time of a process (proc(5): fields 14 and 15 of stat, in ticks). */
function processorTimeMs(pid: number): number {
  const fields = read(`/proc/${pid}/stat`).split(') ')[1]?.split(' ') ?? []
  return ((Number(fields[11]) + Number(fields[12])) / TICKS_A_SECOND) * 1000
}

function read(path: string): string {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return ''
  }
}
