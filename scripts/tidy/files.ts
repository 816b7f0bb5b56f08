import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { SourceText } from './syntax.ts'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** Paths, from the root, of every file that belongs to the project: tracked, or new and not ignored. */
export function projectPaths(): string[] {
  const listed = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  })
  return [...new Set(listed.split('\0'))].filter((path) => path !== '' && existsSync(join(ROOT, path))).toSorted()
}

/** Reads project files as text; binary ones (with a NUL byte) are left out. */
export function readProjectFiles(paths: readonly string[]): SourceText[] {
  return paths
    .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }))
    .filter((file) => !file.text.includes('\0'))
}

export const isScript = (path: string): boolean => /\.tsx?$/.test(path)
export const isTest = (path: string): boolean => /\.(test|spec)\.tsx?$/.test(path)
