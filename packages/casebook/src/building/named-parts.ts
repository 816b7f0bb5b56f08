import { KINDS } from '../entry/kinds.ts'
import type { Kind } from '../entry/kinds.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** An entry that speaks of a component, by its title. */
export interface NamedBy {
  readonly entry: string
  readonly title: string
}

const OWN: ReadonlySet<Kind> = new Set<Kind>(['building.described', 'building.edited'])

/** Every component that an entry in force speaks of (an exposure, a stop of a plan, a sample, a measure …), and which entries do. */
export function namedParts({ record }: InvestigationState): Map<string, NamedBy[]> {
  const named = new Map<string, NamedBy[]>()
  for (const { first, amendments, withdrawn } of record.versions.values()) {
    if (withdrawn !== undefined || OWN.has(first.kind)) continue
    const { title } = KINDS[first.kind]
    for (const component of componentsIn((amendments.at(-1) ?? first).body)) {
      const by = named.get(component)
      if (by === undefined) named.set(component, [{ entry: first.id, title }])
      else by.push({ entry: first.id, title })
    }
  }
  return named
}

interface Naming {
  readonly component?: unknown
  readonly components?: unknown
  readonly plan?: { readonly stops?: readonly { readonly component?: unknown }[] }
}

/** Entries name components in `component`, in `components`, or at the stops of a plan. */
function componentsIn(body: unknown): Set<string> {
  const { component, components, plan } = body as Naming
  const listed = Array.isArray(components) ? (components as unknown[]) : []
  const stops = plan?.stops?.map((stop) => stop.component) ?? []
  return new Set([component, ...listed, ...stops].filter((one) => typeof one === 'string'))
}
