/** An answer, and what was sent to get it. */
export interface Answer {
  readonly what: string
  readonly status: number
  readonly contentType: string
  readonly body: string
  /** time of the processor */
  readonly workMs: number
  /** time by the clock */
  readonly ms: number
}

/** More work than this on a refusal and the server would be deaf to everybody else; other work on the machine does not count. */
const MOST_WORK_MS = 5000
/** Half the minute after which the server itself gives a long run up: an answer later than this waited for that limit, or for none. */
const PATIENCE_MS = 30_000
const LONGEST_RECEIVED = 300
/** what would tell of the inside: stacks, files, the libraries' own codes, values nobody put into words */
const INSIDE = /node_modules|\.ts:\d|\n\s+at |FST_ERR|HPE_|"undefined|\[object|failure inside/

/** What is wrong with a refusal as an answer to a person or program; undefined when it is as it must be. */
export function complaintAbout(answer: Answer): string | undefined {
  const { what, status, contentType, body, workMs, ms } = answer
  const wrong = [
    workMs > MOST_WORK_MS && `worked ${Math.round(workMs)} ms`,
    ms > PATIENCE_MS && `took ${Math.round(ms)} ms`,
    (status < 400 || status >= 500) && 'is no refusal',
    !contentType.startsWith('application/json') && `comes as ${contentType}`,
    INSIDE.test(body) && 'tells of the inside',
    !hasIssues(body) && 'has no issues',
  ].filter((each) => each !== false)
  return wrong.length === 0 ? undefined : `${what}: ${status} ${wrong.join(', ')}: ${body.slice(0, 200)}`
}

export function hasIssues(body: string): boolean {
  try {
    const { issues } = JSON.parse(body) as { issues?: unknown }
    return Array.isArray(issues) && issues.length > 0 && issues.every(isIssue)
  } catch {
    return false
  }
}

function isIssue(given: unknown): boolean {
  if (typeof given !== 'object' || given === null) return false
  const parts = Object.entries(given) as [string, unknown][]
  const known = parts.every(
    ([name, value]) => ['path', 'expected', 'received'].includes(name) && typeof value === 'string',
  )
  return known && parts.length === 3 && String(Reflect.get(given, 'received')).length <= LONGEST_RECEIVED
}
