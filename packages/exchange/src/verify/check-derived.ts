import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { jsonOf, textOf } from '../package/file-text.ts'
import { KEYS_PATH, TREE_PATH } from '../package/manifest.ts'
import { type Finding, foundIn, type Layer } from './verdict.ts'

/** Compares what a package says follows from its record with what does follow, and names the first difference of each file. */
export function derivedFindings(
  files: ReadonlyMap<string, Uint8Array>,
  made: ReadonlyMap<string, Uint8Array>,
): Finding[] {
  const compared = [...made.keys()].some((path) => layerOf(path) === 'tables')
  const extra = [...files.keys()].filter((path) => compared && path.startsWith('tables/') && !made.has(path))
  return [
    ...[...made].flatMap(([path, wanted]) =>
      foundIn(layerOf(path), differences(path, { wanted, given: files.get(path) })),
    ),
    ...foundIn(
      'tables',
      extra.map((path) =>
        statedIssue(path, { expected: 'a table that follows from the record', received: 'another one' }),
      ),
    ),
  ]
}

export function layerOf(path: string): Layer {
  if (path === KEYS_PATH) return 'keys'
  return path === TREE_PATH ? 'tree' : 'tables'
}

interface Compared {
  readonly wanted: Uint8Array
  readonly given: Uint8Array | undefined
}

function differences(path: string, { wanted, given }: Compared): Issue[] {
  if (given === undefined) return [statedIssue(path, { expected: 'what follows from the record', received: undefined })]
  if (sameBytes(wanted, given)) return []
  const [want, have] = [textOf(wanted) ?? '', textOf(given)]
  if (have === undefined) return [statedIssue(path, { expected: 'text in UTF-8', received: 'another encoding' })]
  const told = path.endsWith('.json') ? jsonDifference(jsonOf(wanted), jsonOf(given)) : lineDifference(want, have)
  const { at, expected, received } = told ?? {
    at: '',
    expected: 'to be written as a package is',
    received: 'the same said otherwise',
  }
  return [statedIssue(`${path} ${at}`.trim(), { expected, received })]
}

export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, index) => byte === b[index])
}

interface Difference {
  readonly at: string
  readonly expected: string
  readonly received: string
}

const SHOWN = 200

function lineDifference(want: string, have: string): Difference {
  const [wanted, given] = [want.split('\r\n'), have.split('\r\n')]
  const index = wanted.findIndex((line, row) => line !== given[row])
  const row = index < 0 ? wanted.length : index
  const shown = (lines: string[]) =>
    lines[row] === undefined ? 'no such line' : JSON.stringify(lines[row].slice(0, SHOWN))
  return { at: `line ${row + 1}`, expected: shown(wanted), received: shown(given) }
}

/** The first place where two values differ, by path; undefined where they mean the same. */
function jsonDifference(want: unknown, have: unknown, at = ''): Difference | undefined {
  if (Object.is(want, have)) return undefined
  if (isObject(want) && isObject(have) && Array.isArray(want) === Array.isArray(have)) {
    for (const key of new Set([...Object.keys(want), ...Object.keys(have)])) {
      const inner = at === '' ? key : `${at}.${key}`
      const found = jsonDifference(want[key], have[key], inner)
      if (found !== undefined) return found
    }
    return undefined
  }
  const shown = (value: unknown) => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, SHOWN))
  return { at, expected: shown(want), received: shown(have) }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null
}
