import type * as z from 'zod'
import { issuesFromZod } from '@rillmark/science/catalogue/from-zod.ts'
import type { ReadSystem, Report, SystemProblem } from './check-parts.ts'
import type { Component, Pipe } from './water-system.ts'
import { componentSchema, pipeSchema, supplySchema, systemHeadSchema } from './water-system.ts'

/**
 * Reads every part of a file on its own, so that one bad component hides no problem of another, and reports what
 * cannot be read.
 */
export function readShape(file: unknown, problems: SystemProblem[]): ReadSystem | undefined {
  if (typeof file !== 'object' || file === null || Array.isArray(file)) {
    problems.push({ ...described('', file), expected: 'a water system', severity: 'error' })
    return undefined
  }
  const { components, pipes, ...head } = file as Record<string, unknown>
  const readHead = systemHeadSchema.safeParse(head)
  if (!readHead.success) report(problems, issuesFromZod(readHead.error, head))
  const supply = supplySchema.safeParse(head['supply'])
  const places = new Map<Component | Pipe, number>()
  const readComponents = readList({ list: components, name: 'components', schema: componentSchema, places, problems })
  const readPipes = readList({ list: pipes, name: 'pipes', schema: pipeSchema, places, problems })
  const supplyRead = supply.success ? supply.data : undefined
  return { supply: supplyRead, components: readComponents, pipes: readPipes, knownIds: idsOf(components), places }
}

interface ListInput<T extends Component | Pipe> {
  list: unknown
  name: string
  schema: z.ZodType<T>
  places: Map<Component | Pipe, number>
  problems: SystemProblem[]
}

function readList<T extends Component | Pipe>({ list, name, schema, places, problems }: ListInput<T>): T[] {
  if (!Array.isArray(list)) {
    problems.push({ ...described(name, list), expected: `a list of ${name}`, severity: 'error' })
    return []
  }
  const read: T[] = []
  list.forEach((item: unknown, index) => {
    const parsed = schema.safeParse(item)
    if (parsed.success) {
      read.push(parsed.data)
      places.set(parsed.data, index)
      return
    }
    const issues = issuesFromZod(parsed.error, item).map((one) => ({
      ...one,
      path: one.path === '' ? `${name}.${index}` : `${name}.${index}.${one.path}`,
    }))
    report(problems, issues, idOf(item))
  })
  return read
}

function report(problems: SystemProblem[], issues: ReturnType<typeof issuesFromZod>, component?: string): void {
  for (const one of issues)
    problems.push(component === undefined ? { ...one, severity: 'error' } : { ...one, severity: 'error', component })
}

const idOf = (item: unknown): string | undefined => {
  const id: unknown = typeof item === 'object' && item !== null && 'id' in item ? item.id : undefined
  return typeof id === 'string' ? id : undefined
}

const idsOf = (list: unknown): Set<string> =>
  new Set(Array.isArray(list) ? list.map(idOf).filter((id) => id !== undefined) : [])

function described(path: string, value: unknown): { path: string; received: string } {
  if (value === undefined) return { path, received: 'nothing' }
  const received = Array.isArray(value) ? 'a list' : value === null ? 'null' : `a ${typeof value}`
  return { path, received }
}

/** Ids given twice, pipes that end nowhere or where they began, and parts nothing is joined to. */
export function checkLinks(input: ReadSystem & { report: Report; pipeCount: (id: string) => number }): void {
  reportTwice(input, input.components)
  reportTwice(input, input.pipes)
  for (const pipe of input.pipes) {
    const at = `pipes.${input.places.get(pipe) ?? '?'}`
    for (const end of ['from', 'to'] as const)
      if (!input.knownIds.has(pipe[end]))
        input.report({ at: `${at}.${end}`, expected: 'the id of a component', received: pipe[end], component: pipe.id })
    if (pipe.from === pipe.to)
      input.report({
        at: `${at}.to`,
        expected: 'another component than the one it comes from',
        received: pipe.to,
        component: pipe.id,
      })
  }
  for (const component of input.components)
    if (input.pipeCount(component.id) === 0)
      input.report({
        at: `components.${input.places.get(component) ?? '?'}`,
        expected: 'at least one pipe joined to it',
        received: component.id,
        component: component.id,
      })
}

function reportTwice(input: ReadSystem & { report: Report }, things: readonly (Component | Pipe)[]): void {
  const first = new Map<string, number>()
  for (const thing of things) {
    const list = 'circuit' in thing ? 'pipes' : 'components'
    const index = input.places.get(thing) ?? 0
    const before = first.get(thing.id)
    if (before === undefined) first.set(thing.id, index)
    else
      input.report({
        at: `${list}.${index}.id`,
        expected: `an id of its own (${list}.${before} has it)`,
        received: thing.id,
        component: thing.id,
      })
  }
}
