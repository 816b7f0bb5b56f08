import * as z from 'zod'
import type { Finding } from './finding.ts'
import type { SourceText } from './syntax.ts'

const PAGE = 'docs/dependencies.md'
const FIELDS = ['dependencies', 'devDependencies', 'optionalDependencies', 'peerDependencies'] as const
const Libraries = z.record(z.string(), z.string()).optional()
const Manifest = z.object({
  dependencies: Libraries,
  devDependencies: Libraries,
  optionalDependencies: Libraries,
  peerDependencies: Libraries,
})

/** Libraries without exactly one line of reason on the dependencies page, and lines about libraries no longer used. */
export function unexplainedDependencies(manifests: readonly SourceText[], page: string): Finding[] {
  const used = manifests.flatMap(librariesOf)
  const lines = page.split('\n').map((line) => /^- `([^`]+)`\s*[—–:-]\s*\S/.exec(line)?.[1])
  const names = new Set(used.map((each) => each.name))
  const firstUses = used.filter((each, index) => used.findIndex((other) => other.name === each.name) === index)
  return [
    ...firstUses.flatMap((each) => {
      const count = lines.filter((name) => name === each.name).length
      const found = `${each.name} has ${count} lines in ${PAGE}, not one`
      return count === 1
        ? []
        : [
            {
              file: each.file,
              line: each.line,
              rule: 'dependency',
              found,
              mend: `write "- \`${each.name}\` — why it is here"`,
            },
          ]
    }),
    ...lines.flatMap((name, index) => {
      if (name === undefined || names.has(name)) return []
      return [
        {
          file: PAGE,
          line: index + 1,
          rule: 'dependency',
          found: `${name} is in no package.json`,
          mend: 'remove the line',
        },
      ]
    }),
  ]
}

function librariesOf({ path, text }: SourceText): { name: string; file: string; line: number }[] {
  const manifest = Manifest.parse(JSON.parse(text))
  return FIELDS.flatMap((field) => Object.keys(manifest[field] ?? {}))
    .filter((name) => !name.startsWith('@rillmark/'))
    .map((name) => ({ name, file: path, line: text.slice(0, text.indexOf(`"${name}":`)).split('\n').length }))
}
