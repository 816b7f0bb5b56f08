import type { Finding } from './finding.ts'
import { isTest } from './files.ts'
import { dottedName, isNode, type Node, nodeOf, nodesOf, type Source, walk } from './syntax.ts'

const FILE_LINES = 500
const FUNCTION_LINES = 70
const POSITIONAL_PARAMETERS = 2
const FOLDERS_BELOW_SRC = 2

const FUNCTIONS = new Set(['FunctionDeclaration', 'FunctionExpression', 'ArrowFunctionExpression'])

/** Files, functions, parameter lists and folders beyond the budgets. */
export function overBudget(sources: readonly Source[]): Finding[] {
  return sources.flatMap((source) => [
    ...longFile(source),
    ...longFunctions(source),
    ...manyParameters(source),
    ...deepFolder(source),
  ])
}

function longFile({ path, text }: Source): Finding[] {
  const lines = text.split('\n').length - 1
  if (lines <= FILE_LINES) return []
  const mend = 'split it by phase or by subject'
  return [
    { file: path, line: FILE_LINES + 1, rule: 'file-lines', found: `${lines} lines, at most ${FILE_LINES}`, mend },
  ]
}

function longFunctions(source: Source): Finding[] {
  const findings: Finding[] = []
  walk(source.tree, (node) => {
    if (!FUNCTIONS.has(node.type)) return
    const lines = span(source, node) - testLinesWithin(source, node)
    if (lines <= FUNCTION_LINES) return
    findings.push({
      file: source.path,
      line: source.lineAt(node.start),
      rule: 'function-lines',
      found: `a function of ${lines} lines, at most ${FUNCTION_LINES}`,
      mend: 'name its phases and give each its own function',
    })
  })
  return findings
}

/** Lines of the tests and suites registered inside a function: each of them is counted on its own. */
function testLinesWithin(source: Source, outer: Node): number {
  let lines = 0
  walk(outer, (node, ancestors) => {
    const nested = ancestors.some((each) => each !== outer && isTestCall(each))
    if (!nested && node !== outer && isTestCall(node)) lines += span(source, node)
  })
  return lines
}

function isTestCall(node: Node): boolean {
  return node.type === 'CallExpression' && /^(test|it|describe)(\.|$)/.test(dottedName(innermostCallee(node)) ?? '')
}

/** `test.each(rows)(title, run)` is a call of a call: the name sits at the bottom. */
export function innermostCallee(node: Node): Node | undefined {
  const callee = nodeOf(node, 'callee') ?? nodeOf(node, 'tag')
  const again = callee?.type === 'CallExpression' || callee?.type === 'TaggedTemplateExpression'
  return callee !== undefined && again ? innermostCallee(callee) : callee
}

function span(source: Source, node: Node): number {
  return source.lineAt(node.end) - source.lineAt(node.start) + 1
}

function manyParameters(source: Source): Finding[] {
  return exportedFunctions(source.tree)
    .filter(({ run }) => nodesOf(run, 'params').length > POSITIONAL_PARAMETERS)
    .map(({ name, run }) => ({
      file: source.path,
      line: source.lineAt(run.start),
      rule: 'parameters',
      found: `${name} takes ${nodesOf(run, 'params').length} positional parameters, at most ${POSITIONAL_PARAMETERS}`,
      mend: 'take one object with named fields',
    }))
}

function deepFolder({ path }: Source): Finding[] {
  const below = /^packages\/[^/]+\/src\/(.*)$/.exec(path)?.[1]?.split('/') ?? []
  if (below.length - 1 <= FOLDERS_BELOW_SRC) return []
  const found = `${below.length - 1} folders below src, at most ${FOLDERS_BELOW_SRC}`
  return [{ file: path, line: 1, rule: 'depth', found, mend: 'move it up to src/<subject>/<thing>' }]
}

/** Tests of a package that do not sit beside the file whose name they carry. */
export function strayTests(paths: readonly string[]): Finding[] {
  const known = new Set(paths)
  return paths
    .filter((path) => /^packages\/[^/]+\/src\//.test(path) && isTest(path))
    .filter((path) => {
      const stem = path.replace(/([^/.]+)\.[^/]*$/, '$1')
      return !known.has(`${stem}.ts`) && !known.has(`${stem}.tsx`)
    })
    .map((file) => ({
      file,
      line: 1,
      rule: 'test-beside',
      found: 'no source of this name beside the test',
      mend: 'name it <thing>.test.ts or <thing>.<aspect>.test.ts beside <thing>.ts',
    }))
}

export type ExportedFunction = { readonly name: string; readonly run: Node; readonly statement: Node }

/** Functions a file exports at its top level, declared or assigned to a constant, also through `export { … }`. */
export function exportedFunctions(tree: Node): ExportedFunction[] {
  const listed = new Set<string>()
  const found: (ExportedFunction & { exported: boolean })[] = []
  for (const statement of nodesOf(tree, 'body')) {
    for (const each of nodesOf(statement, 'specifiers')) {
      if (statement.type === 'ExportNamedDeclaration') listed.add(dottedName(each['local']) ?? '')
    }
    const exported = statement.type.startsWith('Export')
    const declaration = exported ? statement['declaration'] : statement
    for (const each of functionsDeclared(declaration)) found.push({ ...each, statement, exported })
  }
  return found.filter((each) => each.exported || listed.has(each.name))
}

function functionsDeclared(declaration: unknown): { name: string; run: Node }[] {
  if (!isNode(declaration)) return []
  if (FUNCTIONS.has(declaration.type)) {
    return [{ name: dottedName(declaration['id']) ?? 'the default export', run: declaration }]
  }
  if (declaration.type !== 'VariableDeclaration') return []
  return nodesOf(declaration, 'declarations').flatMap((each) => {
    const run = each['init']
    return isNode(run) && FUNCTIONS.has(run.type) ? [{ name: dottedName(each['id']) ?? 'a function', run }] : []
  })
}
