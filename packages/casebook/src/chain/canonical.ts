import canonicalize from 'canonicalize'

/**
 * The one way a value is written for hashing: RFC 8785 (JSON Canonicalization Scheme).
 * @throws TypeError for what JSON can't carry (undefined, NaN, functions)
 */
export function canonicalJson(value: unknown): string {
  const written = canonicalize(value)
  if (written === undefined)
    throw new TypeError(`Cannot write canonical JSON because the value has none: got ${typeof value}`)
  return written
}
