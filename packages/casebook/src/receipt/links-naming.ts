import type { Link } from '../chain/link.ts'

/**
 * The links of a record that name a label anywhere in their entry, and those that amend or withdraw one of these: everything said of a
 * sample, in order.
 */
export function linksNaming(links: readonly Link[], label: string): Link[] {
  const said = new Set<string>()
  return links.filter(({ entry }) => {
    const named = names(entry.body, label) || (entry.corrects !== undefined && said.has(entry.corrects.entry))
    if (named) said.add(entry.id)
    return named
  })
}

/** Whether a value holds this very text, at any depth. */
export function names(value: unknown, label: string): boolean {
  if (typeof value === 'string') return value === label
  if (typeof value !== 'object' || value === null) return false
  return Object.values(value).some((inner) => names(inner, label))
}
