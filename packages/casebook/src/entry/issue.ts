/** One thing wrong with data a person or program gave: where, what was expected, what was received. */
export interface Issue {
  readonly path: string
  readonly expected: string
  readonly received: string
}

/** Builds an issue; `received` is shown as JSON, shortened so that a message stays one line. */
export function issue(path: string, detail: { expected: string; received: unknown }): Issue {
  return { path, expected: detail.expected, received: shown(detail.received) }
}

/** Builds an issue whose `received` is said in our own words instead of shown as data. */
export function statedIssue(
  path: string,
  { expected, received = 'nothing' }: { expected: string; received?: string | number | undefined },
): Issue {
  return { path, expected, received: String(received) }
}

/** One line for people: path, what was expected, what was received. */
export function issueLine({ path, expected, received }: Issue): string {
  return `${path === '' ? 'input' : path}: expected ${expected}, received ${received}`
}

const SHOWN_LIMIT = 80

function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = asJson(value)
  return text.length > SHOWN_LIMIT ? `${text.slice(0, SHOWN_LIMIT)}…` : text
}

/** A value JSON can't hold (a cycle, a bigint) is named by its type: an issue must never fail to be told. */
function asJson(value: unknown): string {
  try {
    return JSON.stringify(value) ?? typeof value
  } catch {
    return `a ${typeof value} that JSON can't hold`
  }
}
