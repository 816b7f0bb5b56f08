// `rillmark calc --batch` on 100,000 lines: how long, and how much memory when its answers are read slowly.
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import type { Measurement } from '../measure.ts'

const LINES = 100_000
const BAD_EVERY = 1000
const LAUNCHER = fileURLToPath(new URL('../../packages/cli/bin/rillmark.js', import.meta.url))

export async function batchRows(): Promise<Measurement[]> {
  const what = `calc --batch, ${LINES} lines with a bad one in ${BAD_EVERY}`
  const quick = await piped(LINES, 0)
  const slow = await piped(LINES / 5, 1)
  const memory = (peakMb: number | undefined) =>
    peakMb === undefined
      ? { value: 0, unit: 'MB', note: 'not measured: this system doesn’t tell' }
      : { value: peakMb, unit: 'MB', budget: 250 }
  return [
    { what, value: quick.ms, unit: 'ms', budget: 60_000 },
    { what: `${what}, most memory`, ...memory(quick.peakMb) },
    { what: `calc --batch, ${LINES / 5} lines, answers read slowly, most memory`, ...memory(slow.peakMb) },
  ]
}

/** Feeds lines as fast as they are taken, reads answers with a pause each hundred, and checks their order. */
async function piped(lines: number, pauseMs: number): Promise<{ ms: number; peakMb: number | undefined }> {
  const began = performance.now()
  const child = spawn(process.execPath, [LAUNCHER, 'calc', '--batch'], { stdio: ['pipe', 'pipe', 'ignore'] })
  const fed = feed(child.stdin, lines)
  let read = 0
  let peakMb: number | undefined
  for await (const line of createInterface({ input: child.stdout })) {
    const answer = JSON.parse(line) as { result?: { estimate: number }; error?: string }
    const bad = read % BAD_EVERY === BAD_EVERY - 1
    if (bad ? answer.error === undefined : answer.result?.estimate !== (read % 7) / 50)
      throw new Error(`answer ${read} is not that of its line: ${line}`)
    read += 1
    if (read % 100 !== 0) continue
    peakMb = mostHeldMb(child.pid) ?? peakMb
    if (pauseMs > 0) await new Promise((resume) => setTimeout(resume, pauseMs))
  }
  await fed
  if (read !== lines) throw new Error(`${read} answers for ${lines} lines`)
  return { ms: performance.now() - began, peakMb }
}

async function feed(to: NodeJS.WritableStream, lines: number): Promise<void> {
  for (let n = 0; n < lines; n++) {
    const bad = n % BAD_EVERY === BAD_EVERY - 1
    const line = bad ? 'bad' : JSON.stringify({ id: 'proportion', input: { positive: n % 7, total: 50 } })
    if (!to.write(`${line}\n`)) await once(to, 'drain')
  }
  to.end()
}

function mostHeldMb(pid: number | undefined): number | undefined {
  try {
    const kilobytes = /VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]
    return kilobytes === undefined ? undefined : Number(kilobytes) / 1024
  } catch {
    return undefined
  }
}
