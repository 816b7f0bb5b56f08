import type * as z from 'zod'
import { type Issue, issue } from './issue.ts'

/**
 * Turns a schema's complaints into issues: path in dots, what was expected in words, what was received as given.
 * Complaints of the best-matching branch stand for a failed union.
 */
export function issuesFromZod(error: z.ZodError, input: unknown): Issue[] {
  return error.issues.flatMap((problem) => flatten(problem)).map((problem) => toIssue(problem, input))
}

/** Parses with a schema, giving the value or the list of issues. Never throws on bad data. */
export function parseWith<T>(
  schema: z.ZodType<T>,
  input: unknown,
): { ok: true; value: T } | { ok: false; issues: Issue[] } {
  const parsed = schema.safeParse(input)
  return parsed.success ? { ok: true, value: parsed.data } : { ok: false, issues: issuesFromZod(parsed.error, input) }
}

type Problem = z.core.$ZodIssue

function flatten(problem: Problem): Problem[] {
  if (problem.code !== 'invalid_union' || problem.errors.length === 0) return [problem]
  const best = problem.errors.reduce((a, b) => (b.length < a.length ? b : a))
  return best.map((inner) => ({ ...inner, path: [...problem.path, ...inner.path] })).flatMap(flatten)
}

function toIssue(problem: Problem, input: unknown): Issue {
  const path = problem.path.map(String).join('.')
  const received = problem.code === 'unrecognized_keys' ? problem.keys.join(', ') : valueAt(input, problem.path)
  return issue(path, { expected: expectedBy(problem), received })
}

function expectedBy(problem: Problem): string {
  switch (problem.code) {
    case 'invalid_type':
      return problem.expected
    case 'invalid_value':
      return `one of ${problem.values.map(String).join(', ')}`
    case 'unrecognized_keys':
      return 'only known fields'
    case 'too_small':
      return `${problem.inclusive === false ? 'more than' : 'at least'} ${problem.minimum}`
    case 'too_big':
      return `${problem.inclusive === false ? 'less than' : 'at most'} ${problem.maximum}`
    case 'custom':
      return problem.message
    default:
      return problem.message.charAt(0).toLowerCase() + problem.message.slice(1)
  }
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = input
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined
    value = (value as Record<PropertyKey, unknown>)[key]
  }
  return value
}
