import type { Finding } from './finding.ts'
import { dottedName, isNode, type Node, nodeOf, nodesOf, type Source, walk } from './syntax.ts'

const CLOCK = 'pass the instant in as an argument; build fixed ones with Date.UTC or from ISO text'
const CHANCE = 'pass random or newId in as an argument'
const OUTSIDE = 'return the value and let the caller read or write it'
const LOCALE = 'return the plain value, or name the locale and time zone explicitly'

/** Globals and members that tie a result to the machine it was computed on, with the mend. */
const IMPURE: Readonly<Record<string, string>> = {
  'Date.now': CLOCK,
  'Temporal.Now': CLOCK,
  performance: CLOCK,
  setTimeout: CLOCK,
  setInterval: CLOCK,
  'Math.random': CHANCE,
  'crypto.randomUUID': CHANCE,
  'crypto.getRandomValues': CHANCE,
  console: OUTSIDE,
  process: OUTSIDE,
  fetch: OUTSIDE,
  XMLHttpRequest: OUTSIDE,
  WebSocket: OUTSIDE,
  localStorage: OUTSIDE,
  sessionStorage: OUTSIDE,
  indexedDB: OUTSIDE,
  navigator: OUTSIDE,
  document: OUTSIDE,
  window: OUTSIDE,
}

const MACHINE_LOCALE =
  /^toLocale|^(get|set)(FullYear|Month|Date|Day|Hours|Minutes|Seconds|Milliseconds)$|^getTimezoneOffset$/
const NOT_A_REFERENCE = new Set([
  'Property',
  'MethodDefinition',
  'PropertyDefinition',
  'TSPropertySignature',
  'TSMethodSignature',
  'JSXAttribute',
])

/** Reads of a clock, chance, console, network, store or locale in the rooms that must stay pure. */
export function impurities(sources: readonly Source[]): Finding[] {
  return sources.flatMap((source) => [...outsideImports(source), ...outsideReads(source)])
}

function outsideImports(source: Source): Finding[] {
  return source.imports
    .filter((each) => each.specifier.startsWith('node:'))
    .map((each) => finding({ source, line: each.line, found: `imports ${each.specifier}`, mend: OUTSIDE }))
}

function outsideReads(source: Source): Finding[] {
  const declared = declaredNames(source.tree)
  const findings: Finding[] = []
  const add = (node: Node, found: string, mend: string) =>
    findings.push(finding({ source, line: source.lineAt(node.start), found, mend }))
  walk(source.tree, (node, ancestors) => {
    const name = impureName(node, ancestors)
    if (name !== undefined && !declared.has(name.split('.')[0] ?? ''))
      add(node, `uses ${name}`, IMPURE[name] ?? OUTSIDE)
    const dated = readsClockOrZone(node)
    if (dated !== undefined) add(node, dated, CLOCK)
    const locale = readsLocale(node)
    if (locale !== undefined) add(node, locale, LOCALE)
  })
  return findings
}

function impureName(node: Node, ancestors: readonly Node[]): string | undefined {
  const parent = ancestors.at(-1)
  if (node.type === 'MemberExpression') {
    const name = dottedName(node)
    return name !== undefined && Object.hasOwn(IMPURE, name) ? name : undefined
  }
  if (node.type !== 'Identifier' || parent === undefined) return undefined
  if (parent.type === 'MemberExpression' && parent['property'] === node && parent['computed'] !== true) return undefined
  if (NOT_A_REFERENCE.has(parent.type) && parent['key'] === node) return undefined
  const name = String(node['name'])
  return Object.hasOwn(IMPURE, name) ? name : undefined
}

/** `new Date()` reads the clock; `new Date(2024, 1, 2)` and `Date()` read the machine's time zone. */
function readsClockOrZone(node: Node): string | undefined {
  if (dottedName(node['callee']) !== 'Date') return undefined
  if (node.type === 'CallExpression') return 'calls Date()'
  if (node.type !== 'NewExpression') return undefined
  const given = nodesOf(node, 'arguments').length
  return given === 1 ? undefined : given === 0 ? 'uses new Date()' : 'uses new Date(year, month, …)'
}

function readsLocale(node: Node): string | undefined {
  if (node.type !== 'CallExpression' && node.type !== 'NewExpression') return undefined
  const callee = nodeOf(node, 'callee')
  const given = nodesOf(node, 'arguments')
  const intl = dottedName(callee)
  if (intl?.startsWith('Intl.') === true && namesNoLocale(given[0])) return `uses ${intl} with the machine's locale`
  if (callee?.type !== 'MemberExpression' || callee['computed'] === true) return undefined
  const method = dottedName(callee['property']) ?? ''
  if (method === 'localeCompare')
    return namesNoLocale(given[1]) ? `uses ${method} with the machine's locale` : undefined
  return MACHINE_LOCALE.test(method) && namesNoLocale(given[0]) ? `uses ${method}()` : undefined
}

function namesNoLocale(argument: Node | undefined): boolean {
  if (argument === undefined || dottedName(argument) === 'undefined') return true
  return argument.type === 'ArrayExpression' && nodesOf(argument, 'elements').length === 0
}

/** Names a file gives to its own things anywhere: a local `window` of incubation is not the browser's. */
function declaredNames(tree: Node): Set<string> {
  const names = new Set<string>()
  const bind = (pattern: unknown): void => {
    if (!isNode(pattern)) return
    if (pattern.type === 'Identifier') names.add(String(pattern['name']))
    for (const key of ['left', 'argument', 'value', 'parameter'])
      if (pattern.type !== 'MemberExpression') bind(pattern[key])
    for (const key of ['properties', 'elements']) for (const each of nodesOf(pattern, key)) bind(each)
  }
  walk(tree, (node) => {
    if (/^Import.*Specifier$/.test(node.type)) bind(node['local'])
    if (node.type === 'VariableDeclarator' || node.type.endsWith('Declaration')) bind(node['id'])
    if (node.type === 'CatchClause') bind(node['param'])
    if (/Function/.test(node.type)) nodesOf(node, 'params').forEach(bind)
  })
  return names
}

function finding(at: { source: Source; line: number; found: string; mend: string }): Finding {
  return { file: at.source.path, line: at.line, rule: 'pure', found: at.found, mend: at.mend }
}
