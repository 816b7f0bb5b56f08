/** A piece is handed over once it has about so many characters. */
const PIECE_LENGTH = 65_536

/**
 * A value as JSON to read, in pieces: a matrix of thousands of isolates is longer than any one text can be.
 * Two spaces a level, as usual; each row of a table of numbers stands on one line.
 *
 * @param value plain data
 */
export function* jsonPieces(value: unknown): Generator<string> {
  let begun = ''
  for (const part of parts(value, '')) {
    begun += part
    if (begun.length < PIECE_LENGTH) continue
    yield begun
    begun = ''
  }
  yield begun
}

function* parts(value: unknown, indent: string): Generator<string> {
  if (typeof value !== 'object' || value === null) return yield JSON.stringify(value ?? null)
  const list = Array.isArray(value)
  const [open, close] = list ? '[]' : '{}'
  const members = Object.entries(value).filter(([, member]) => list || member !== undefined)
  if (members.length === 0) return yield `${open}${close}`
  yield `${open}\n`
  for (const [at, [name, member]] of members.entries()) {
    yield `${at === 0 ? '' : ',\n'}${indent}  ${list ? '' : `${JSON.stringify(name)}: `}`
    if (list && isRow(member)) yield JSON.stringify(member)
    else yield* parts(member, `${indent}  `)
  }
  yield `\n${indent}${close}`
}

/** A row of a table holds values only. */
function isRow(member: unknown): boolean {
  return Array.isArray(member) && member.every((each) => typeof each !== 'object' || each === null)
}
