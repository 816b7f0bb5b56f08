import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { type Facts, LAYERS, type Verdict } from './verdict.ts'

export interface VerdictTold {
  readonly headline: string
  /** what the file is, name and value */
  readonly facts: readonly (readonly [name: string, value: string])[]
  readonly holds: string
}

/** A verdict in words, the same at a terminal and on the page. */
export function verdictWords({ sound, facts, findings, holds }: Verdict): VerdictTold {
  const faults = findings.length === 1 ? '1 fault' : `${findings.length} faults`
  const what = facts.kind === 'package' ? 'package' : 'receipt'
  return {
    headline: sound ? `Sound ${what}` : `Not sound: ${faults}`,
    facts: factLines(facts),
    holds: holds.map((layer) => LAYERS[layer]).join(', '),
  }
}

function factLines(facts: Facts): [string, string][] {
  const { title, investigation, sample, entries, signed, unsigned, devices, revoked, pictures, head, root } = facts
  const { givenBy, givenAt, givenKey } = facts
  const named = title === undefined || title === investigation ? investigation : `${title} (${investigation ?? ''})`
  const lines: [string, string | undefined][] = [
    ['Investigation', named],
    ['Label', sample],
    [
      facts.kind === 'receipt' ? 'Entries in the record' : 'Entries',
      entries === undefined ? undefined : String(entries),
    ],
    ['Signed', signed === undefined ? undefined : `${signed} of ${signed + (unsigned ?? 0)} entries`],
    [
      'Devices',
      devices === undefined
        ? undefined
        : revoked === 0
          ? String(devices)
          : `${devices}, ${revoked ?? 0} of them revoked`,
    ],
    ['Pictures', pictures === undefined ? undefined : String(pictures)],
    ['Head', head],
    ['Root', root],
    ['Given by', givenBy],
    ['Given at', givenAt === undefined ? undefined : `${givenAt.slice(0, 19).replace('T', ' ')} UTC, by its clock`],
    ['Key of who gave it', givenKey === undefined ? undefined : hashGroups(givenKey)],
  ]
  return lines.flatMap(([name, value]) => (value === undefined ? [] : [[name, value] as [string, string]]))
}
