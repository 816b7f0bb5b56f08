// Two hundred devices come back with fifty thousand signed entries and two gigabytes of photos, to one server process over HTTP; beside plain
// inserts of the same bytes into SQLite in the same run. Recorded with `node benchmarks/run.ts sync`.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { startServer } from '../tests/faults/server-process.ts'
import type { Measurement } from './measure.ts'
import { DEVICES, makeLoads, totals } from './sync/load.ts'
import { plainInserts } from './sync/plain-inserts.ts'
import { sendLoads, type Sent } from './sync/send-load.ts'

const GOAL_P99_MS = 200
/** Over how long the devices come back: teams end their day, not their second. */
const COME_BACK_MS = 60_000
const MB = 1_000_000

export async function measure(): Promise<Measurement[]> {
  const rows: Measurement[] = []
  for (const { overMs, what } of [
    {
      overMs: COME_BACK_MS * Number(process.env['RILLMARK_SYNC_SCALE'] ?? 1),
      what: `${DEVICES} devices back within a minute`,
    },
    { overMs: 0, what: `${DEVICES} devices back at once` },
  ])
    rows.push(...(await measured({ overMs, what })))
  return rows
}

async function measured({ overMs, what }: { overMs: number; what: string }): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-sync-'))
  const loads = makeLoads()
  const server = await startServer({ dataFolder: join(folder, 'data') })
  try {
    const sent = await sendLoads(loads, { url: server.url, overMs })
    const memoryMb = peakMemoryMb(server.pid)
    const processorMs = processorTimeMs(server.pid)
    await server.kill()
    return rowsOf({
      what,
      sent,
      memoryMb,
      processorMs,
      atOnce: overMs === 0,
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
  readonly atOnce: boolean
  readonly plainMs: number
  readonly entries: number
  readonly entryBytes: number
  readonly photoBytes: number
}

function rowsOf(found: Found): Measurement[] {
  const { what, sent, memoryMb, processorMs, atOnce, plainMs, entries, entryBytes, photoBytes } = found
  const goal = atOnce ? { note: 'all wait for each other' } : { budget: GOAL_P99_MS }
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
