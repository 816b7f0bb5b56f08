/** One fact of a body: its place as keys, and its value in words. */
export interface BodyFact {
  /** e.g. `target.value`, `samples.0.label` */
  readonly path: string
  readonly value: string
}

/** Every single value in a body, nested ones under their dotted path, in the order written. An empty list or group is a fact too. */
export function bodyFacts(body: unknown): readonly BodyFact[] {
  return factsOf(body, '')
}

function factsOf(value: unknown, path: string): BodyFact[] {
  if (value === undefined) return []
  if (Array.isArray(value) && value.length === 0) return path === '' ? [] : [{ path, value: 'none' }]
  if (Array.isArray(value) && value.every((item) => !isObject(item)))
    return [{ path, value: value.map(words).join(', ') }]
  if (!isObject(value)) return [{ path, value: words(value) }]
  return Object.entries(value).flatMap(([key, inner]) => factsOf(inner, path === '' ? key : `${path}.${key}`))
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
}

function words(value: unknown): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  return value === null ? 'nothing' : String(value)
}

/** A fact over several versions of one entry. */
export interface ComparedFact {
  readonly path: string
  /** one a version, in their order; `change` says in a word how it differs from the version before */
  readonly versions: readonly { readonly value?: string | undefined; readonly change: Change }[]
}

export type Change = 'first' | 'same' | 'changed' | 'added' | 'removed'

/** The bodies of all versions of one entry, fact by fact. */
export function compareBodies(bodies: readonly unknown[]): readonly ComparedFact[] {
  const facts = bodies.map((body) => new Map(bodyFacts(body).map(({ path, value }) => [path, value])))
  const paths = [...new Set(facts.flatMap((each) => [...each.keys()]))]
  return paths.map((path) => ({
    path,
    versions: facts.map((each, index) => ({
      value: each.get(path),
      change: changeOf(each.get(path), { before: facts[index - 1], path }),
    })),
  }))
}

function changeOf(
  value: string | undefined,
  { before, path }: { before: ReadonlyMap<string, string> | undefined; path: string },
): Change {
  if (before === undefined) return 'first'
  const old = before.get(path)
  if (old === value) return 'same'
  if (old === undefined) return 'added'
  return value === undefined ? 'removed' : 'changed'
}
