import type { Entry } from '@rillmark/casebook/entry/entry.ts'

/** SHA-256 of every attachment the entries name, each once, in the order named. */
export function attachmentsIn(entries: readonly Entry[]): string[] {
  return [...new Set(entries.flatMap(attachmentsOf))]
}

function attachmentsOf(entry: Entry): string[] {
  switch (entry.kind) {
    case 'photo.taken':
      return [entry.body.sha256]
    case 'measure.achieved':
      return entry.body.photo === undefined ? [] : [entry.body.photo]
    case 'consignment.handed-over': {
      const { signedBy } = entry.body
      return signedBy === undefined || signedBy.way === 'device' ? [] : [signedBy.sha256]
    }
    default:
      return []
  }
}
