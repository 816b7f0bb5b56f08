/** One thing wrong with data a person or program gave: where, what was expected, what was received. */
export interface Issue {
  /** Dotted path of the field, '' for the whole input. */
  readonly path: string
  readonly expected: string
  readonly received: string
}

/**
 * Builds an issue; `received` is shown as data, shortened so that a message stays one line.
 *
 * @param path dotted path of the field, '' for the whole input
 * @source none: it computes nothing of the trade
 * @example
 * issue('total', { expected: 'a number', received: '12' }) // => { path: 'total', expected: 'a number', received: '"12"' }
 */
export function issue(path: string, detail: { expected: string; received: unknown }): Issue {
  return { path, expected: detail.expected, received: describeReceived(detail.received) }
}

/**
 * Builds an issue whose `received` is said in our own words instead of shown as data.
 *
 * @param path dotted path of the field, '' for the whole input
 * @source none: it computes nothing of the trade
 * @example
 * statedIssue('file', { expected: 'a picture' }) // => { path: 'file', expected: 'a picture', received: 'nothing' }
 */
export function statedIssue(
  path: string,
  { expected, received = 'nothing' }: { expected: string; received?: string | number | undefined },
): Issue {
  return { path, expected, received: String(received) }
}

/**
 * One line for people: path, what was expected, what was received.
 *
 * @param given an issue
 * @source none: it computes nothing of the trade
 * @example
 * issueLine({ path: '', expected: 'JSON', received: 'nothing' }) // => "input: expected JSON, received nothing"
 */
export function issueLine({ path, expected, received }: Issue): string {
  const line = `${path === '' ? 'input' : path}: expected ${expected}, received ${received === '' ? 'nothing' : received}`
  return line.replaceAll(/\s*[\r\n]+\s*/g, ' ')
}

/** Longer than this, what was received is cut: the reader has it before him. */
const LONGEST_SHOWN = 80
/** A list of more things is told by their number. */
const MOST_LISTED = 4

/**
 * A value as one short phrase for a message. Takes no longer for a large or deeply nested value than for a small one, and never fails.
 *
 * @param value anything
 * @source none: it computes nothing of the trade
 * @example
 * describeReceived(undefined) // => "nothing"
 */
export function describeReceived(value: unknown): string {
  if (value === undefined) return 'nothing'
  if (Array.isArray(value)) return describeList(value)
  if (typeof value === 'object' && value !== null) return 'an object'
  return typeof value === 'string' ? quoted(value) : shorten(String(value))
}

function describeList(list: readonly unknown[]): string {
  if (list.length === 0) return 'an empty list'
  const short = list.length <= MOST_LISTED && list.every((each) => typeof each !== 'object' || each === null)
  return short ? shorten(list.map(describeReceived).join(', ')) : `a list of ${list.length}`
}

/** Quoted as JSON does it, so that spaces, line ends and look-alike control characters show. */
function quoted(text: string): string {
  return shorten(JSON.stringify(text.slice(0, LONGEST_SHOWN + 1)))
}

function shorten(text: string): string {
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text
}
