// What a forger does who changes files in a package and makes the manifest fit.
// oxlint-disable typescript/no-explicit-any -- a forger writes anything anywhere
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { prettyJson } from '@rillmark/exchange/package/derived-files.ts'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { sound } from './package-way.ts'

export type Files = Record<string, Uint8Array>

const EPOCH = new Date(1980, 0, 1)

/** The package's files changed; the manifest lists them as they are then, unless it is to stay. */
export function refiled(change: (files: Files) => void, { agree = true } = {}): Uint8Array {
  const files = unzipSync(sound)
  change(files)
  if (agree) relist(files)
  return zipped(files)
}

/** Lists every file in the manifest with its size and hash. */
export function relist(files: Files): void {
  const manifest = JSON.parse(text(files, 'manifest.json')) as { files: object[] }
  manifest.files = Object.entries(files)
    .filter(([path]) => path !== 'manifest.json')
    .map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: sha256OfBytes(bytes) }))
  files['manifest.json'] = strToU8(prettyJson(manifest))
}

export function zipped(files: Files): Uint8Array {
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([path, bytes]) => [
        path,
        [bytes, { level: path.startsWith('attachments/') ? 0 : 6, mtime: EPOCH }],
      ]),
    ),
  )
}

export const text = (files: Files, path: string): string => strFromU8(files[path] ?? new Uint8Array())

type Json = Record<string, any>

/** One JSON file changed and written as packages write it; the manifest fits, unless the file is the manifest. */
export function rejson(path: string, change: (value: Json) => void): Uint8Array {
  return retext(path, (before) => {
    const value = JSON.parse(before) as Json
    change(value)
    return prettyJson(value)
  })
}

/** One text file rewritten. */
export function retext(path: string, change: (before: string) => string): Uint8Array {
  return refiled(
    (files) => {
      const before = text(files, path)
      const after = change(before)
      if (after === before) throw new RangeError(`Cannot tamper with ${path} because the change changes nothing`)
      files[path] = strToU8(after)
    },
    { agree: path !== 'manifest.json' },
  )
}

/** A file taken out; the manifest no longer lists it. */
export function without(path: string): Uint8Array {
  return refiled((files) => {
    if (files[path] === undefined) throw new RangeError(`Cannot take out ${path} because it is not there`)
    delete files[path]
  })
}

/** A file taken out, or put in, and the manifest left as it was. */
export function behindManifest(change: (files: Files) => void): Uint8Array {
  return refiled(change, { agree: false })
}

/** Lines of a table changed. */
export function relined(path: string, change: (lines: string[]) => string[]): Uint8Array {
  return retext(path, (before) => `${change(before.trimEnd().split('\r\n')).join('\r\n')}\r\n`)
}

export const pathOf = (files: Files, folder: string): string =>
  Object.keys(files).find((path) => path.startsWith(folder)) ?? ''
