import type { Manifest } from '../package/manifest.ts'
import { KEYS_PATH, TREE_PATH, VERIFIER_PATH } from '../package/manifest.ts'
import { TABLES_VERSION } from '../package/tables.ts'
import type { PackageRead } from './check-attachments.ts'
import type { VerifyOptions } from './verify-package.ts'

interface Known {
  readonly counts: { readonly signed: number; readonly unsigned: number }
  readonly options: Pick<VerifyOptions, 'head' | 'receipts'>
}

/** What a sound package still does not prove, said so that nobody takes it for more. */
export function cautionsOf({ manifest, files }: PackageRead, { counts, options }: Known): string[] {
  return [
    ...outsideCaution(options),
    ...unsignedCaution(counts),
    ...tablesCaution(manifest),
    ...lackingCaution(files),
    ...missingCaution(manifest),
    ...(files.has(VERIFIER_PATH)
      ? [
          'The verifier inside comes with the package. Where that matters, use one from elsewhere: the app serves it, the command has it.',
        ]
      : []),
  ]
}

function outsideCaution({ head, receipts }: Known['options']): string[] {
  if (head !== undefined || (receipts ?? []).length > 0) return []
  return [
    'Held against nothing from outside: a record cut short at its end would look as sound. Compare the head with a printed report, or bring a receipt.',
  ]
}

function unsignedCaution({ signed, unsigned }: Known['counts']): string[] {
  if (unsigned === 0) return []
  const which = signed === 0 ? 'No entry is signed' : `${unsigned} of ${signed + unsigned} entries are not signed`
  return [`${which}: the chain shows that they fit together, not who wrote them.`]
}

function tablesCaution({ tables }: Manifest): string[] {
  if (tables === TABLES_VERSION) return []
  const which =
    tables === undefined ? 'An older package' : `Its tables are ${tables}, this verifier knows ${TABLES_VERSION}`
  return [`${which}: the tables were not made again and compared. The record is what counts.`]
}

/** The oldest packages hold neither; both follow from the record, so nothing is lost, but nobody vouches for them either. */
function lackingCaution(files: PackageRead['files']): string[] {
  const lacking = [
    ...(files.has(KEYS_PATH) ? [] : ['no list of keys']),
    ...(files.has(TREE_PATH) ? [] : ['no root of the tree']),
  ]
  if (lacking.length === 0) return []
  return [`An older package: it holds ${lacking.join(' and ')}; both are made of the record here.`]
}

function missingCaution({ missing }: Manifest): string[] {
  if (missing.length === 0) return []
  return [
    `${missing.length} ${missing.length === 1 ? 'file' : 'files'} the record names were not at hand when the package was made.`,
  ]
}
