import type { ConditionsOverrides } from '../conditions/overrides.ts'

/** Several changes as one: lists and tables are joined, of single figures the last counts. */
export function mergeOverrides(all: readonly ConditionsOverrides[]): ConditionsOverrides {
  const merged: Record<string, unknown> = {}
  for (const overrides of all)
    for (const [name, value] of Object.entries(overrides)) merged[name] = joined(merged[name], value)
  return merged
}

function joined(before: unknown, next: unknown): unknown {
  if (Array.isArray(before) && Array.isArray(next)) return [...before, ...next]
  const tables = [before, next].every((each) => typeof each === 'object' && each !== null && !Array.isArray(each))
  return tables ? { ...(before as object), ...(next as object) } : next
}
