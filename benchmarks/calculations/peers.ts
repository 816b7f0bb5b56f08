// Runs the same work in R or Python and holds the answers against ours before any time is compared.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface Peer {
  language: 'python' | 'R'
  job: string
  /** How the table calls it. */
  name: string
  /** Largest relative difference between an answer of ours and the peer's. */
  tolerance: number
  /** Which of our figures it gives, by their place; all unless given. */
  figures?: readonly number[]
  runs?: number
  /** Not the work as one would write it down, but another form made for speed alone: shown, and may be faster. */
  other?: boolean
}

export interface PeerWork {
  /** What Python reads. */
  inputs: readonly object[]
  /** What R reads: plain numbers, a line each. */
  lines?: readonly (readonly number[])[]
  /** Our answers, a list of figures for each input. */
  answers: readonly (readonly number[])[]
}

export type PeerTime = { ms: number } | { notMeasured: string }

const PROGRAMS = {
  python: {
    command: 'python3',
    script: 'peer.py',
    needs: 'python3 with numpy and scipy',
    test: ['-c', 'import numpy, scipy'],
  },
  R: { command: 'Rscript', script: 'peer.R', needs: 'R with survival', test: ['-e', 'library(survival)'] },
}

/** The peer's own least processor time; throws where its answers are not ours. */
export function peerTime(peer: Peer, work: PeerWork): PeerTime {
  const { command, script, needs, test } = PROGRAMS[peer.language]
  if (spawnSync(command, test).status !== 0) return { notMeasured: `not measured: ${needs} missing` }
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-bench-'))
  try {
    const file = join(folder, 'inputs')
    writeFileSync(file, peer.language === 'R' ? asLines(work.lines ?? []) : JSON.stringify({ inputs: work.inputs }))
    const asked = [join(import.meta.dirname, script), peer.job, file, String(peer.runs ?? 5)]
    const done = spawnSync(command, asked, { encoding: 'utf8', maxBuffer: 2 ** 28 })
    if (done.status !== 0) throw new Error(`${peer.name} failed: ${done.stderr}`)
    const { seconds, results } = JSON.parse(done.stdout) as { seconds: number; results: (number | null)[][] }
    holdTogether(peer, { ours: work.answers, theirs: results })
    return { ms: 1000 * seconds }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function asLines(lines: readonly (readonly number[])[]): string {
  return lines.map((line) => `${line.join(' ')}\n`).join('')
}

interface Answers {
  ours: readonly (readonly number[])[]
  theirs: readonly (readonly (number | null)[])[]
}

function holdTogether({ name, tolerance, figures }: Peer, { ours, theirs }: Answers): void {
  if (ours.length !== theirs.length) throw new Error(`${name} gave ${theirs.length} answers for ${ours.length}`)
  for (const [i, all] of ours.entries()) {
    const own = figures?.map((place) => all[place] ?? Number.NaN) ?? all
    const other = theirs[i] ?? []
    const near = (figure: number, place: number) =>
      Math.abs(figure - (other[place] ?? Number.NaN)) <= tolerance * Math.max(1e-3, Math.abs(figure))
    if (own.length !== other.length || !own.every(near))
      throw new Error(`${name} and Rillmark differ on input ${i}: ${other.join(', ')} for ${own.join(', ')}`)
  }
}
