import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { isPackagePath } from './manifest.ts'
import { unzipMember } from './unzip-member.ts'
import { readZipDirectory, type ZipMember } from './zip-directory.ts'

type Opened =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array>; readonly members: readonly ZipMember[] }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/**
 * Unpacks a package: nothing is unpacked before the directory is found sound, within limits and free of anything that does not belong.
 */
export function openArchive(bytes: Uint8Array): Opened {
  const directory = readZipDirectory(bytes)
  if (!directory.ok) return directory
  const strangers = directory.members.flatMap(({ path }) => (isPackagePath(path) ? [] : [strangerIssue(path)]))
  if (strangers.length > 0) return { ok: false, issues: strangers }
  const files = new Map<string, Uint8Array>()
  for (const member of directory.members) {
    const content = unzipMember(bytes, member)
    if (content === undefined) return { ok: false, issues: [damaged(member)] }
    files.set(member.path, content)
  }
  return { ok: true, files, members: directory.members }
}

function strangerIssue(path: string): Issue {
  const outside = /(^|[\\/])\.\.([\\/]|$)|^[\\/]|^[a-z]:|\\|\0/i.test(path)
  return statedIssue(path, {
    expected: 'a file that belongs in a package',
    received: outside ? 'a path that leads outside' : 'an unknown file',
  })
}

function damaged({ path }: ZipMember): Issue {
  return statedIssue(path, { expected: 'the bytes the archive declares', received: 'damaged or more bytes' })
}
