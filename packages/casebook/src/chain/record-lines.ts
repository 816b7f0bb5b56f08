import { canonicalJson } from './canonical.ts'
import type { Link } from './link.ts'
import { type Expectation, type Verdict, verifyChain } from './verify.ts'

/** A record as text: one link a line, each line the canonical JSON of its link, each ended by a line feed. */
export function recordLines(links: readonly Link[]): string {
  return links.map((link) => `${canonicalJson(link)}\n`).join('')
}

/**
 * Reads a record's text back and walks it. A line that is not exactly the canonical JSON of what it says (a key twice, other spacing,
 * another way to write a number or a letter) is a broken link too: two readers could read it in two ways.
 */
export function readRecordLines(text: string, expected: Expectation): { verdict: Verdict; links: Link[] } {
  const { read, fault } = readLines(text)
  const verdict = verifyChain(read, fault === undefined ? expected : { ...expected, head: undefined })
  if (!verdict.sound || fault === undefined) return { verdict, links: verdict.sound ? (read as Link[]) : [] }
  const { head } = verdict
  return { verdict: { sound: false, sequence: head.sequence + 1, reason: fault, lastSound: head }, links: [] }
}

function readLines(text: string): { read: unknown[]; fault?: string } {
  const read: unknown[] = []
  const lines = text.split('\n')
  const unfinished = lines.pop()
  for (const line of lines) {
    const parsed = readLine(line)
    if (parsed.fault !== undefined) return { read, fault: parsed.fault }
    read.push(parsed.value)
  }
  return unfinished === '' ? { read } : { read, fault: 'the line has no end: the file was cut short' }
}

function readLine(line: string): { value?: unknown; fault?: string } {
  try {
    const value: unknown = JSON.parse(line)
    return canonicalJson(value) === line ? { value } : { fault: 'the line is not the canonical JSON of its link' }
  } catch {
    return { fault: 'the line is not JSON' }
  }
}
