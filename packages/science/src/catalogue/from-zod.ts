import type * as z from 'zod'
import { type Issue, issue } from './issue.ts'

/**
 * What a schema found wrong, as issues a person can act on; all of them at once. Complaints of the best-matching branch stand for a
 * failed choice between shapes.
 *
 * @param error the schema's error
 * @param input what was checked, so that the received value can be shown
 * @source none: it computes nothing of the trade
 * @example
 * issuesFromZod(z.number().safeParse('x').error, 'x') // => [{ path: '', expected: 'a number', received: '"x"' }]
 */
export function issuesFromZod(error: z.ZodError, input: unknown): Issue[] {
  return error.issues.flatMap(withBestBranch).flatMap((problem) => issuesOfOne(problem, input))
}

/**
 * Parses with a schema, giving the value or the list of issues. Never throws on bad data.
 *
 * @param schema what the input must be
 * @source none: it computes nothing of the trade
 * @example
 * parseWith(z.number(), '1') // => { ok: false, issues: [{ path: '', expected: 'a number', received: '"1"' }] }
 */
export function parseWith<T>(
  schema: z.ZodType<T>,
  input: unknown,
): { ok: true; value: T } | { ok: false; issues: Issue[] } {
  const parsed = schema.safeParse(input)
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, issues: issuesFromZod(parsed.error, input) }
}

type Problem = z.core.$ZodIssue

function withBestBranch(problem: Problem): Problem[] {
  if (problem.code !== 'invalid_union' || problem.errors.length === 0) return [problem]
  const best = problem.errors.reduce((a, b) => (b.length < a.length ? b : a))
  return best.map((inner) => ({ ...inner, path: [...problem.path, ...inner.path] })).flatMap(withBestBranch)
}

function issuesOfOne(problem: Problem, input: unknown): Issue[] {
  const told: unknown = problem.code === 'custom' ? problem.params?.['received'] : undefined
  const at = (path: readonly PropertyKey[], expected: string): Issue => {
    const found = issue(path.map(String).join('.'), { expected, received: valueAt(input, path) })
    return typeof told === 'string' ? { ...found, received: told } : found
  }
  if (problem.code !== 'unrecognized_keys') return [at(problem.path, expectation(problem))]
  return problem.keys.slice(0, MOST_UNKNOWN).map((key) => at([...problem.path, shortKey(key)], 'no field of this name'))
}

/** Unknown fields are named one by one, but not without end. */
const MOST_UNKNOWN = 20
const LONGEST_KEY = 60

const shortKey = (key: string): string => (key.length > LONGEST_KEY ? `${key.slice(0, LONGEST_KEY)}…` : key)

function expectation(problem: Problem): string {
  switch (problem.code) {
    case 'invalid_type':
      return EXPECTED_TYPE[problem.expected] ?? problem.expected
    case 'too_small':
      return `${problem.inclusive === false ? 'more than' : 'at least'} ${problem.minimum}${things(problem.origin)}`
    case 'too_big':
      return `${problem.inclusive === false ? 'less than' : 'at most'} ${problem.maximum}${things(problem.origin)}`
    case 'invalid_value':
      return `one of ${problem.values.map(String).join(', ')}`
    case 'invalid_format':
      return problem.format === 'date' ? 'a date as YYYY-MM-DD' : inSentence(problem.message)
    case 'custom':
      return problem.message
    default:
      return inSentence(problem.message)
  }
}

const EXPECTED_TYPE: Readonly<Record<string, string>> = {
  int: 'a whole number',
  number: 'a number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
}

function things(origin: string): string {
  if (origin === 'string') return ' characters'
  return origin === 'array' ? ' items' : ''
}

/** A message as part of a sentence; an abbreviation such as SHA keeps its capitals. */
function inSentence(message: string): string {
  if (/^\p{Lu}[\p{Lu}\d-]/u.test(message)) return message
  return message.charAt(0).toLowerCase() + message.slice(1)
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = Reflect.get(value, key)
  }
  return value
}
