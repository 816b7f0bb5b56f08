import { exportedFunctions } from './budgets.ts'
import type { Finding } from './finding.ts'
import type { Node, Source } from './syntax.ts'

/** Exported functions of science that do not say, in their docstring, where their mathematics comes from. */
export function unsourced(sources: readonly Source[]): Finding[] {
  return sources.flatMap((source) =>
    exportedFunctions(source.tree).flatMap(({ name, run, statement }) => {
      const docstring = docstringOf(source, statement)
      const at = { file: source.path, line: source.lineAt(run.start), rule: 'source' }
      if (docstring === undefined)
        return [
          { ...at, found: `${name} has no docstring`, mend: 'say what it computes, in which unit, and its @source' },
        ]
      if (/@source[ \t]+\S/.test(docstring)) return []
      return [
        {
          ...at,
          found: `the docstring of ${name} names no @source`,
          mend: 'add "@source" with the publication, "common practice, no source", or "none: <why it computes nothing of the trade>"',
        },
      ]
    }),
  )
}

/** The block comment that ends right before a statement. */
function docstringOf(source: Source, statement: Node): string | undefined {
  const before = source.comments.findLast((each) => each.end <= statement.start)
  if (before === undefined || before.type !== 'Block' || !before.value.startsWith('*')) return undefined
  return source.text.slice(before.end, statement.start).trim() === '' ? before.value : undefined
}
