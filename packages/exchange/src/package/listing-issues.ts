import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { ENTRIES_PATH, MANIFEST_PATH, type Manifest } from './manifest.ts'

/** Files that the manifest does not list, lists and has not, or lists with other bytes. */
export function listingIssues({ files: listed }: Manifest, files: ReadonlyMap<string, Uint8Array>): Issue[] {
  const names = new Set(listed.map(({ path }) => path))
  const unlisted = [...files.keys()].filter((path) => path !== MANIFEST_PATH && !names.has(path))
  return [
    ...unlisted.map((path) =>
      statedIssue(path, { expected: 'only files the manifest lists', received: 'one it does not list' }),
    ),
    ...listed.flatMap(({ path, bytes, sha256 }) => {
      const file = files.get(path)
      if (file === undefined)
        return [statedIssue(path, { expected: 'the file the manifest lists', received: undefined })]
      const sound = file.length === bytes && sha256OfBytes(file) === sha256
      return sound
        ? []
        : [statedIssue(path, { expected: `${bytes} bytes with SHA-256 ${sha256}`, received: 'other bytes' })]
    }),
    ...(names.has(ENTRIES_PATH) ? [] : [statedIssue(ENTRIES_PATH, { expected: 'the record', received: undefined })]),
  ]
}
