import type * as z from 'zod'

/** One thing wrong with data a user gave. */
export interface Issue {
  /** Dotted path of the field, '' for the whole input. */
  path: string
  expected: string
  received: string
}

/**
 * What a schema found wrong, as issues a person can act on; all of them at once.
 *
 * @param error the schema's error
 * @param input what was checked, so the received value can be shown
 * @source none: it computes nothing of the trade
 * @example
 * describeReceived('12') // => "text \"12\""
 */
export function issuesOf(error: z.ZodError, input: unknown): Issue[] {
  return error.issues.flatMap((issue) => issuesOfOne(issue, input))
}

function issuesOfOne(issue: z.core.$ZodIssue, input: unknown): Issue[] {
  const told: unknown = issue.code === 'custom' ? issue.params?.['received'] : undefined
  const at = (path: readonly PropertyKey[], expected: string): Issue => ({
    path: path.map(String).join('.'),
    expected,
    received: typeof told === 'string' ? told : describeReceived(valueAt(input, path)),
  })
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => at([...issue.path, key], 'no field of this name'))
  }
  return [at(issue.path, expectation(issue))]
}

function expectation(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return EXPECTED_TYPE[issue.expected] ?? issue.expected
    case 'too_small':
      return `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${things(issue.origin)}`
    case 'too_big':
      return `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${things(issue.origin)}`
    case 'invalid_value':
      return `one of ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      return issue.format === 'date' ? 'a date as YYYY-MM-DD' : issue.message
    default:
      return issue.message
  }
}

const EXPECTED_TYPE: Record<string, string> = {
  int: 'a whole number',
  number: 'a number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
}

function things(origin: string): string {
  if (origin === 'string') return ' characters'
  return origin === 'array' ? ' items' : ''
}

const LONGEST_SHOWN = 60

/**
 * A value as one short phrase for a message.
 *
 * @param value anything
 * @source none: it computes nothing of the trade
 * @example
 * describeReceived(undefined) // => "nothing"
 */
export function describeReceived(value: unknown): string {
  if (value === undefined) return 'nothing'
  if (typeof value === 'string') return `text ${shorten(JSON.stringify(value))}`
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`
  if (typeof value === 'object' && value !== null) return 'an object'
  return shorten(String(value))
}

function shorten(text: string): string {
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = Reflect.get(value, key)
  }
  return value
}
