import { parseSync, visitorKeys } from 'oxc-parser'

export type SourceText = { readonly path: string; readonly text: string }

/** A syntax tree node, read loosely: rules look only at the fields they name. */
export type Node = { readonly type: string; readonly start: number; readonly end: number } & Readonly<
  Record<string, unknown>
>

export type Import = { readonly specifier: string; readonly line: number; readonly erased: boolean }

export type Source = SourceText & {
  readonly tree: Node
  readonly comments: readonly {
    readonly value: string
    readonly type: string
    readonly start: number
    readonly end: number
  }[]
  readonly imports: readonly Import[]
  readonly lineAt: (offset: number) => number
}

/** Parses a TypeScript file into the tree, comments and imports the house rules read. */
export function parseSource(file: SourceText): Source {
  const parsed = parseSync(file.path, file.text)
  const [problem] = parsed.errors
  if (problem !== undefined)
    throw new TypeError(`Cannot read ${file.path} because it does not parse: ${problem.message}`)
  const tree: unknown = parsed.program
  if (!isNode(tree)) throw new TypeError(`Cannot read ${file.path} because the parser gave no tree`)
  const lineAt = lineFinder(file.text)
  return { ...file, tree, comments: parsed.comments, imports: importsOf(tree, lineAt), lineAt }
}

/** Visits every node below and including `node`, parents first; `visit` is given the chain of ancestors, nearest last. */
export function walk(node: Node, visit: (node: Node, ancestors: readonly Node[]) => void): void {
  const ancestors: Node[] = []
  const step = (current: Node): void => {
    visit(current, ancestors)
    ancestors.push(current)
    for (const child of childrenOf(current)) step(child)
    ancestors.pop()
  }
  step(node)
}

/** The text of a string literal or of the fixed parts of a template; undefined for anything else. */
export function textOf(node: unknown): string | undefined {
  if (!isNode(node)) return undefined
  if (node.type === 'Literal') return typeof node['value'] === 'string' ? node['value'] : undefined
  if (node.type !== 'TemplateLiteral') return undefined
  return nodesOf(node, 'quasis').map(rawText).join('…')
}

/** The nodes in a field that holds a list; empty when it holds none. */
export function nodesOf(node: Node, field: string): Node[] {
  const value = node[field]
  return Array.isArray(value) ? value.filter(isNode) : []
}

/** The node in a field; undefined when the field holds none. */
export function nodeOf(node: Node, field: string): Node | undefined {
  const value = node[field]
  return isNode(value) ? value : undefined
}

function rawText({ value }: Node): string {
  return typeof value === 'object' && value !== null && 'raw' in value ? String(value.raw) : ''
}

export function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string'
}

/** The dotted name of a callee or member such as `Math.random` or `test.each`; undefined when it is computed. */
export function dottedName(node: unknown): string | undefined {
  if (!isNode(node)) return undefined
  if (node.type === 'Identifier') return String(node['name'])
  if (node.type !== 'MemberExpression' || node['computed'] === true) return undefined
  const object = dottedName(node['object'])
  return object === undefined ? undefined : `${object}.${dottedName(node['property'])}`
}

function childrenOf(node: Node): Node[] {
  const keys = visitorKeys[node.type] ?? []
  return keys.flatMap((key) => {
    const only = nodeOf(node, key)
    return only === undefined ? nodesOf(node, key) : [only]
  })
}

function importsOf(tree: Node, lineAt: (offset: number) => number): Import[] {
  const found: Import[] = []
  walk(tree, (node) => {
    const specifier = textOf(node['source'])
    if (specifier !== undefined && IMPORTING.has(node.type)) {
      found.push({ specifier, line: lineAt(node.start), erased: isErased(node) })
    }
  })
  return found
}

const IMPORTING = new Set([
  'ImportDeclaration',
  'ExportNamedDeclaration',
  'ExportAllDeclaration',
  'ImportExpression',
  'TSImportType',
])

function isErased(node: Node): boolean {
  return node.type === 'TSImportType' || node['importKind'] === 'type' || node['exportKind'] === 'type'
}

function lineFinder(text: string): (offset: number) => number {
  const starts = [0]
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1)
  return (offset) => {
    let low = 0
    let high = starts.length - 1
    while (low < high) {
      const middle = Math.ceil((low + high) / 2)
      if ((starts[middle] ?? 0) <= offset) low = middle
      else high = middle - 1
    }
    return low + 1
  }
}
