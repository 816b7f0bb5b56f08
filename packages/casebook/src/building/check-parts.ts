import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { SystemGraph } from './graph.ts'
import type { Component, Pipe, Supply } from './water-system.ts'

/** One thing wrong with a water system: an error stops simulation and planning, a warning asks to be looked at. */
export interface SystemProblem extends Issue {
  readonly severity: 'error' | 'warning'
  /** The component or pipe to jump to. */
  readonly component?: string
}

/** What could be read of a water system, with the place of every part in the file. */
export interface ReadSystem {
  supply: Supply | undefined
  components: readonly Component[]
  pipes: readonly Pipe[]
  /** Every id written on a component, also on those that could not be read whole. */
  knownIds: ReadonlySet<string>
  /** Index of each read component and pipe in the file. */
  places: ReadonlyMap<Component | Pipe, number>
}

/** What a rule of the check is given, and where it puts what it finds. */
export interface CheckInput extends ReadSystem {
  graph: SystemGraph
  report: Report
}

export type Report = (problem: Finding) => void

interface Finding {
  at: string
  expected: string
  received: unknown
  severity?: 'error' | 'warning'
  component?: string | undefined
}

/** Collects what the rules find. */
export function problemCollector(problems: SystemProblem[]): Report {
  return ({ at, expected, received, severity = 'error', component }) => {
    const base = issue(at, { expected, received })
    problems.push(component === undefined ? { ...base, severity } : { ...base, severity, component })
  }
}

/** Where a fact of a component or pipe stands in the file: `components.3.volumeL`. */
export function placeOf(input: ReadSystem, part: { thing: Component | Pipe; fact?: string }): string {
  const list = 'circuit' in part.thing ? 'pipes' : 'components'
  const index = input.places.get(part.thing) ?? '?'
  return part.fact === undefined ? `${list}.${index}` : `${list}.${index}.${part.fact}`
}
