import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import { readRecordLines } from '@rillmark/casebook/chain/record-lines.ts'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { textOf } from '../package/file-text.ts'
import { ENTRIES_PATH, type Manifest } from '../package/manifest.ts'
import { type Finding, foundIn } from './verdict.ts'

export interface RecordExpected {
  readonly manifest: Manifest
  /** a head known from elsewhere: printed in a report, say */
  readonly head: Head | undefined
}

/** Walks the chain of a package's record, and holds its end against the manifest and against what is known from elsewhere. */
export function checkRecord(
  bytes: Uint8Array | undefined,
  { manifest, head: known }: RecordExpected,
): { links: Link[]; findings: Finding[] } {
  const text = textOf(bytes)
  if (text === undefined) {
    const received = bytes === undefined ? undefined : 'another encoding'
    return {
      links: [],
      findings: foundIn('record', [statedIssue(ENTRIES_PATH, { expected: 'text in UTF-8', received })]),
    }
  }
  const { investigation, head, counts } = manifest
  const { verdict, links } = readRecordLines(text, { investigation })
  if (!verdict.sound) {
    const { sequence, reason } = verdict
    const found = statedIssue(`entry ${sequence}`, { expected: 'an unbroken chain', received: reason })
    return { links: [], findings: foundIn('record', [found]) }
  }
  const end = verdict.head
  const findings = [
    ...(end.hash === head.hash && end.sequence === head.sequence
      ? []
      : foundIn('manifest', [statedIssue('manifest.json head', { expected: said(end), received: said(head) })])),
    ...(counts.entries === links.length
      ? []
      : foundIn('manifest', [
          statedIssue('manifest.json counts.entries', { expected: String(links.length), received: counts.entries }),
        ])),
    ...(known === undefined ? [] : headFindings(links, known)),
  ]
  return { links, findings }
}

function headFindings(links: readonly Link[], known: Head): Finding[] {
  const there = links[known.sequence - 1]
  if (there?.hash === known.hash) return []
  const received =
    there === undefined
      ? `a record of ${links.length} entries: it was cut short, or is an older copy`
      : `${there.hash}: the record was rewritten`
  return foundIn('head', [
    statedIssue(`entry ${known.sequence}`, { expected: `the known head ${known.hash}`, received }),
  ])
}

const said = ({ sequence, hash }: Head): string => `${sequence}:${hash}`
