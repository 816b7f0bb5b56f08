import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { SourceText } from './syntax.ts'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** What is made or installed, never written: left out where git can't say what belongs to the project. */
const MADE = /(^|\/)(node_modules|dist|\.git|\.vite|data|gallery|coverage|test-results|playwright-report)(\/|$)/

/** Paths, from the root, of every file that belongs to the project: tracked, or new and not ignored. */
export function projectPaths(): string[] {
  const listed = listedByGit() ?? listedByWalking()
  return [...new Set(listed)].filter((path) => path !== '' && existsSync(join(ROOT, path))).toSorted()
}

/** Reads project files as text; binary ones (with a NUL byte) are left out. */
export function readProjectFiles(paths: readonly string[]): SourceText[] {
  return paths
    .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }))
    .filter((file) => !file.text.includes('\0'))
}

export const isScript = (path: string): boolean => /\.tsx?$/.test(path)
export const isTest = (path: string): boolean => /\.(test|spec)\.tsx?$/.test(path)

/** Undefined outside a checkout; a checkout that belongs to another user is read all the same. */
function listedByGit(): string[] | undefined {
  const args = ['-c', 'safe.directory=*', 'ls-files', '-z', '--cached', '--others', '--exclude-standard']
  const run = spawnSync('git', args, { cwd: ROOT, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })
  return run.status === 0 && run.stdout !== '' ? run.stdout.split('\0') : undefined
}

function listedByWalking(): string[] {
  return readdirSync(ROOT, { recursive: true, withFileTypes: true })
    .filter((each) => each.isFile())
    .map((each) => relative(ROOT, join(each.parentPath, each.name)).split(sep).join('/'))
    .filter((path) => !MADE.test(path))
}
