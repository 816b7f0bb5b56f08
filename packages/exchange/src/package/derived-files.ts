import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import type { MerkleTree } from '@rillmark/casebook/chain/merkle.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { strToU8 } from 'fflate'
import { csvOf } from './csv.ts'
import { dataPackage, tableFiles } from './data-package.ts'
import { keysFile } from './keys-file.ts'
import { DATA_PACKAGE_PATH, KEYS_PATH, TREE_PATH } from './manifest.ts'

export const TREE_FORMAT = 'rillmark/tree@1'

export interface RecordRead {
  readonly state: InvestigationState
  /** as today's schemas read them */
  readonly entries: readonly Entry[]
  readonly tree: MerkleTree
}

/** Every file of a package that follows from the record alone, by path. */
export function derivedFiles({ state, entries, tree }: RecordRead): Map<string, Uint8Array> {
  const tables = tableFiles(state, (header, rows) => strToU8(csvOf(header, rows)))
  const described = dataPackage(state, tables)
  return new Map<string, Uint8Array>([
    [KEYS_PATH, strToU8(prettyJson(keysFile(entries)))],
    [TREE_PATH, strToU8(prettyJson({ format: TREE_FORMAT, size: tree.size, root: tree.root() }))],
    [DATA_PACKAGE_PATH, strToU8(prettyJson(described))],
    ...tables.map(({ table, bytes }) => [`tables/${table.name}.csv`, bytes] as const),
  ])
}

/** Keys in canonical order (RFC 8785), indented for people. */
export function prettyJson(value: unknown): string {
  return `${JSON.stringify(JSON.parse(canonicalJson(value)), null, 2)}\n`
}
