import { posix } from 'node:path'
import { STEPS } from '@rillmark/casebook/entry/steps.ts'
import type { Finding } from './finding.ts'
import { type Import, type Node, nodeOf, nodesOf, type Source } from './syntax.ts'

/** What each room may import besides itself. A room that is absent here may import any. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  reference: [],
  science: ['reference'],
  casebook: ['reference', 'science'],
  exchange: ['reference', 'science', 'casebook'],
  server: ['reference', 'science', 'casebook', 'exchange', 'demo'],
  web: ['reference', 'science', 'casebook', 'exchange'],
  cli: ['reference', 'science', 'casebook', 'exchange', 'server', 'demo'],
}

/** The steps of the job: their screens may not import each other. */
const SCREEN_FOLDERS = new Set<string>([...STEPS, 'calculators'])
/** Every step works out its numbers with the calculators and leads to them; they themselves know no step. */
const SERVES_ALL_STEPS = 'calculators'

/** Imports that point the wrong way between rooms, reach another room by path, or join the screens of two steps. */
export function wrongWayImports(sources: readonly Source[]): Finding[] {
  return sources.flatMap((source) => source.imports.flatMap((each) => wrongWay(source.path, each) ?? []))
}

/** Circles of files that import each other's values; imports of types alone are erased and make none. */
export function circularImports(sources: readonly Source[]): Finding[] {
  const known = new Map(sources.map((source) => [source.path, source]))
  const next = (path: string): string[] =>
    (known.get(path)?.imports ?? []).flatMap(({ erased, specifier }) => {
      const target = erased ? undefined : targetPath(path, specifier)
      return target !== undefined && known.has(target) ? [target] : []
    })
  return circles([...known.keys()], next).map((trail) => circle(trail, known))
}

/** Circles of folders, types included: what lies above and what below can then be told from the folders alone. */
export function circularFolders(sources: readonly Source[]): Finding[] {
  const ways = new Map<string, Map<string, { file: string; line: number }>>()
  for (const { path, imports } of sources) {
    const from = posix.dirname(path)
    for (const { specifier, line } of imports) {
      const to = specifier.startsWith('.') ? posix.dirname(targetPath(path, specifier) ?? path) : from
      if (to !== from) ways.set(from, (ways.get(from) ?? new Map()).set(to, { file: path, line }))
    }
  }
  const mend = 'move what both need into a folder below them'
  return circles([...ways.keys()], (folder) => [...(ways.get(folder)?.keys() ?? [])]).map((trail) => {
    const [first = '', second = ''] = trail
    const at = ways.get(first)?.get(second) ?? { file: first, line: 1 }
    return { ...at, rule: 'circular', found: `folders import each other: ${trail.join(' → ')}`, mend }
  })
}

/** Each circle one walk through all of them meets, as the way round from a member to itself. */
function circles(all: readonly string[], next: (from: string) => readonly string[]): string[][] {
  const done = new Set<string>()
  const trail: string[] = []
  const found: string[][] = []
  const visit = (each: string): void => {
    const at = trail.indexOf(each)
    if (at >= 0) found.push([...trail.slice(at), each])
    if (at >= 0 || done.has(each)) return
    trail.push(each)
    for (const other of next(each)) visit(other)
    trail.pop()
    done.add(each)
  }
  for (const each of all) visit(each)
  return found
}

/** Files that only pass on what others export: an import should name the file it means. */
export function barrels(sources: readonly Source[]): Finding[] {
  return sources.flatMap(({ path, tree }) => {
    const statements = nodesOf(tree, 'body')
    const passesOn =
      statements.length > 0 && statements.every((each) => nodeOf(each, 'source') !== undefined && isExport(each))
    if (!passesOn && !/(^|\/)index\.tsx?$/.test(path)) return []
    const mend = 'remove it and import from the files themselves'
    return [{ file: path, line: 1, rule: 'barrel', found: passesOn ? 'it only re-exports' : 'an index file', mend }]
  })
}

/** The project path an import leads to; undefined for a library. */
function targetPath(from: string, specifier: string): string | undefined {
  const bare = specifier.replace(/\?.*$/, '')
  if (bare.startsWith('.')) return posix.join(posix.dirname(from), bare)
  const [, room, rest] = /^@rillmark\/([^/]+)\/?(.*)$/.exec(bare) ?? []
  if (room === undefined) return undefined
  return room === 'reference' ? `reference/${rest ?? ''}` : `packages/${room}/src/${rest ?? ''}`
}

function roomOf(path: string): string {
  const parts = path.split('/')
  return (parts[0] === 'packages' ? parts[1] : parts[0]) ?? ''
}

function wrongWay(path: string, { specifier, line }: Import): Finding | undefined {
  const target = targetPath(path, specifier)
  if (target === undefined) return undefined
  const [from, to] = [roomOf(path), roomOf(target)]
  const allowed = MAY_IMPORT[from]
  const finding = { file: path, line, rule: 'layers' }
  if (from === to) return stepToStep(finding, path, target)
  if (allowed === undefined || (from === 'reference' && path.endsWith('.test.ts'))) return undefined
  if (!allowed.includes(to)) {
    const mend = `move what is needed down into ${from} or a room it may import (${allowed.join(', ') || 'none'})`
    return { ...finding, found: `${from} imports ${to} ("${specifier}")`, mend }
  }
  if (!specifier.startsWith('.') || to === 'demo') return undefined
  return {
    ...finding,
    found: `another room is reached by path ("${specifier}")`,
    mend: `import it as @rillmark/${to}/…`,
  }
}

const isExport = ({ type }: Node): boolean => type.startsWith('Export')

function stepToStep(
  finding: Pick<Finding, 'file' | 'line' | 'rule'>,
  path: string,
  target: string,
): Finding | undefined {
  const [from, to] = [screenStep(path), screenStep(target)]
  if (from === undefined || to === undefined || from === to || to === SERVES_ALL_STEPS) return undefined
  const mend = 'read the other step’s derived state, or move the shared piece to a folder that serves all steps'
  return { ...finding, found: `the screens of ${from} import those of ${to}`, mend }
}

function screenStep(path: string): string | undefined {
  const step = /^packages\/web\/src\/([^/]+)\//.exec(path)?.[1]
  return step !== undefined && SCREEN_FOLDERS.has(step) ? step : undefined
}

function circle(trail: readonly string[], known: ReadonlyMap<string, Source>): Finding {
  const [first = '', second = ''] = trail
  const line = known.get(first)?.imports.find((each) => targetPath(first, each.specifier) === second)?.line ?? 1
  const mend = 'move what both need into a third file'
  return { file: first, line, rule: 'circular', found: `files import each other: ${trail.join(' → ')}`, mend }
}
