import register from '@rillmark/reference/sources/calculations.json' with { type: 'json' }

/** How a figure or method is known: read in the publication, recomputed, or from memory. */
export type Known = 'seen' | 'computed' | 'memory'

export interface Source {
  id: string
  citation: string
  known: Known
}

const REFERENCES = new Map<string, Source>(
  register.sources.map(({ id, citation, known }) => [id, { id, citation, known: knownOf(known) }]),
)

/**
 * The sources of the given keys, from the register in `reference/sources/`.
 *
 * @param ids keys of the register
 * @throws RangeError when a key isn't in the register
 * @source none: it computes nothing of the trade
 * @example
 * sourcesOf('wilson-1927').length // => 1
 */
export function sourcesOf(...ids: string[]): Source[] {
  return ids.map((id) => {
    const source = REFERENCES.get(id)
    if (source === undefined) throw new RangeError(`Cannot cite a source because the register lacks it: got ${id}`)
    return source
  })
}

function knownOf(text: string): Known {
  if (text === 'seen' || text === 'computed' || text === 'memory') return text
  throw new RangeError(`Cannot cite a source because "known" must be seen, computed or memory: got ${text}`)
}
