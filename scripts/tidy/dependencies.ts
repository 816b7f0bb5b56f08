import * as z from 'zod'
import type { Finding } from './finding.ts'
import { isTest } from './files.ts'
import type { Source, SourceText } from './syntax.ts'

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

/** Libraries imported where no package.json that counts there declares them: a file's own, for tests and tools also the root's. */
export function undeclaredImports(sources: readonly Source[], manifests: readonly SourceText[]): Finding[] {
  const declared = new Map(manifests.map((each) => [each.path, new Set(namesIn(each))]))
  return sources.flatMap((source) => {
    const own = manifestOf(source.path)
    const places = own === ROOT_MANIFEST || !needsOwn(source) ? [own, ROOT_MANIFEST] : [own]
    return source.imports.flatMap(({ specifier, line }) => {
      const name = libraryOf(specifier)
      if (name === undefined || isOwnRoom(name, source.path)) return []
      if (places.some((place) => declared.get(place)?.has(name))) return []
      const mend = `add it to ${own}`
      return [{ file: source.path, line, rule: 'declared', found: `${name} is imported but not in ${own}`, mend }]
    })
  })
}

/** Libraries a room declares for its run time and no file of it names. */
export function unusedDependencies(manifests: readonly SourceText[], files: readonly SourceText[]): Finding[] {
  return manifests
    .filter(({ path }) => path !== ROOT_MANIFEST)
    .flatMap((manifest) => {
      const room = files.filter(({ path }) => path !== manifest.path && manifestOf(path) === manifest.path)
      return declaredIn(manifest)
        .filter(({ name }) => !room.some(({ text }) => new RegExp(`['"]${name}['"/]`).test(text)))
        .map(({ name, ...where }) => ({
          ...where,
          rule: 'declared',
          found: `${name} is declared, and no file of ${manifest.path.replace('/package.json', '')} names it`,
          mend: 'remove it',
        }))
    })
}

const ROOT_MANIFEST = 'package.json'

/** What runs at the user's must bring its own libraries; tests and the settings of tools may lean on the root's. */
const needsOwn = ({ path, imports }: Source): boolean =>
  path.includes('/src/') && !isTest(path) && !imports.some(({ specifier }) => specifier === 'vitest')

function manifestOf(path: string): string {
  const [first, second] = path.split('/')
  if (first === 'packages' && second !== undefined) return `packages/${second}/package.json`
  return ROOT_MANIFEST
}

/** The root's folders stand beside the rooms and import any of them by name; which way is the rule `layers`. */
const isOwnRoom = (name: string, path: string): boolean =>
  name.startsWith('@rillmark/') && (!path.startsWith('packages/') || path.startsWith(`packages/${name.slice(10)}/`))

/** The library an import names; undefined for a path, a built-in module and a name that is only known at run time. */
function libraryOf(specifier: string): string | undefined {
  if (/^(\.|\/|…|node:|virtual:)/.test(specifier)) return undefined
  return /^(@[^/]+\/[^/]+|[^/]+)/.exec(specifier)?.[0]
}

const namesIn = (manifest: SourceText): string[] => declaredIn(manifest).map(({ name }) => name)

function librariesOf(manifest: SourceText): { name: string; file: string; line: number }[] {
  return declaredIn(manifest).filter(({ name }) => !name.startsWith('@rillmark/'))
}

function declaredIn({ path, text }: SourceText): { name: string; file: string; line: number }[] {
  const manifest = Manifest.parse(JSON.parse(text))
  return FIELDS.flatMap((field) => Object.keys(manifest[field] ?? {})).map((name) => ({
    name,
    file: path,
    line: text.slice(0, text.indexOf(`"${name}":`)).split('\n').length,
  }))
}
