import { innermostCallee } from './budgets.ts'
import type { Finding } from './finding.ts'
import { dottedName, type Node, nodesOf, type Source, type SourceText, textOf, walk } from './syntax.ts'

const RULE_ID = /\[([A-Z]{2,}\d+[a-z]?)\]/g
/** A rule is defined where its id opens a line, after a list mark, heading mark, table bar or bold. */
const DEFINITION = /^\s*(?:[-*]\s+|\d+\.\s+|#+\s+|\|\s*)?(?:\*\*)?`?\[([A-Z]{2,}\d+[a-z]?)\]/

type Mention = { readonly id: string; readonly file: string; readonly line: number }

/** Rules of a SPEC.md that no test title names, test titles that name no rule, and rules defined twice. */
export function unmatchedRules(specs: readonly SourceText[], sources: readonly Source[]): Finding[] {
  const rules = specs.flatMap(rulesOf)
  const titles = sources.flatMap(titlesOf)
  const [ruled, titled] = [new Set(rules.map((each) => each.id)), new Set(titles.map((each) => each.id))]
  return [
    ...rules.filter((each) => !titled.has(each.id)).map((each) => unproved(each)),
    ...titles.filter((each) => !ruled.has(each.id)).map((each) => unruled(each)),
    ...definedTwice(specs),
  ]
}

/** Tests that are singled out, skipped or left to do: `.only`, `.skip`, `.todo`, `.fixme`, `xit`, `ctx.skip()`. */
export function switchedTests(sources: readonly Source[]): Finding[] {
  return sources.flatMap((source) => {
    const findings: Finding[] = []
    walk(source.tree, (node, ancestors) => {
      if (node.type !== 'CallExpression' || ancestors.at(-1)?.['callee'] === node) return
      const name = dottedName(innermostCallee(node)) ?? ''
      if (!SWITCHED.test(name)) return
      const mend = 'run it; mark a known bug with test.fails and its reason'
      findings.push({ file: source.path, line: source.lineAt(node.start), rule: 'switched-test', found: name, mend })
    })
    return findings
  })
}

const SWITCHED =
  /^(?:test|it|describe|suite|bench)(?:\.\w+)*\.(?:only|skip|todo|fixme|skipIf|runIf)(?:\.\w+)*$|^(?:xit|xtest|xdescribe|fit|fdescribe)$|^(?:ctx|context|t)\.skip$/

function rulesOf({ path, text }: SourceText): Mention[] {
  const seen = new Set<string>()
  return text.split('\n').flatMap((line, index) =>
    [...line.matchAll(RULE_ID)].flatMap(([, id = '']) => {
      if (seen.has(id)) return []
      seen.add(id)
      return [{ id, file: path, line: index + 1 }]
    }),
  )
}

function titlesOf(source: Source): Mention[] {
  const mentions: Mention[] = []
  walk(source.tree, (node) => {
    for (const [, id = ''] of (titleOf(node) ?? '').matchAll(RULE_ID)) {
      mentions.push({ id, file: source.path, line: source.lineAt(node.start) })
    }
  })
  return mentions
}

function titleOf(node: Node): string | undefined {
  if (node.type !== 'CallExpression') return undefined
  const name = dottedName(innermostCallee(node)) ?? ''
  return /^(test|it|describe)(\.|$)/.test(name) ? textOf(nodesOf(node, 'arguments')[0]) : undefined
}

function definedTwice(specs: readonly SourceText[]): Finding[] {
  const first = new Map<string, string>()
  return specs.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line, index) => {
      const id = DEFINITION.exec(line)?.[1]
      if (id === undefined) return []
      const earlier = first.get(id)
      if (earlier === undefined) first.set(id, `${path}:${index + 1}`)
      const found = `${id} is already a rule at ${earlier}`
      return earlier === undefined
        ? []
        : [{ file: path, line: index + 1, rule: 'rule-once', found, mend: 'give it the next free number' }]
    }),
  )
}

function unproved({ id, file, line }: Mention): Finding {
  return {
    file,
    line,
    rule: 'rule-tested',
    found: `no test title names [${id}]`,
    mend: `write the test that proves it, titled "[${id}] …"`,
  }
}

function unruled({ id, file, line }: Mention): Finding {
  return {
    file,
    line,
    rule: 'rule-written',
    found: `no SPEC.md has the rule [${id}]`,
    mend: 'write the rule in the SPEC.md of its package, or correct the id',
  }
}
