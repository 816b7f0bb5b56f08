import type { Finding } from './finding.ts'
import type { SourceText } from './syntax.ts'

type Trace = { readonly pattern: RegExp; readonly what: string; readonly mend: string }

/** What a repository that speaks of itself alone never holds. */
const TRACES: readonly Trace[] = [
  {
    pattern: /(?<![\w.~:/)}\]-])\/(?:work|home|root|Users|tmp|mnt|opt|private)\/[\w.-]+|[A-Z]:\\Users\\\w+/,
    what: 'a path of one machine',
    mend: 'make it relative, or ask the system (os.tmpdir)',
  },
  {
    pattern:
      /https?:\/\/[\w.-]*(?:artifactory|jfrog|verdaccio|nexus|\.internal\b|\blocalhost:4873)|^\s*\/\/[\w.-]+\/:_auth/,
    what: 'a private package registry',
    mend: 'leave the registry to each machine’s own settings',
  },
  {
    pattern: /"resolved":\s*"https?:\/\/(?!registry\.npmjs\.org\/)|^\s*(?:@[\w-]+:)?registry\s*=/,
    what: 'a registry other than the public one',
    mend: 'leave the registry to each machine’s own settings',
  },
  {
    pattern: /(?:\.\.\/)+shared\/(?:design|reference)/,
    what: 'a path that leaves the repository',
    mend: 'say it here, or point at a file inside',
  },
]

/** Traces of the place the project was written in: machine paths, registry hosts, paths that leave the repository. */
export function workplaceTraces(files: readonly SourceText[]): Finding[] {
  return files.flatMap((file) =>
    file.text.split('\n').flatMap((line, index) => traceIn({ path: file.path, line, at: index + 1 })),
  )
}

function traceIn({ path, line, at }: { path: string; line: string; at: number }): Finding[] {
  for (const { pattern, what, mend } of TRACES) {
    const [text] = pattern.exec(line) ?? []
    if (text !== undefined)
      return [{ file: path, line: at, rule: 'workplace', found: `${what} (${text.trim()})`, mend }]
  }
  return []
}
