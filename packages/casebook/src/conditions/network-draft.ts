import type {
  Chemistry,
  NetworkNode,
  NetworkOutlet,
  NetworkPipe,
  NetworkValve,
} from '@rillmark/science/network/network.ts'
import { buildGraph, type SystemGraph } from '../building/graph.ts'
import { knownByOf, type Provenance, type WaterSystem } from '../building/water-system.ts'
import { AssumptionLog } from './assumption-log.ts'
import type { PlacedComponent, PlacedPipe } from './compiled.ts'
import type { CannotSay } from './conditions.ts'
import {
  type Choice,
  choice,
  type FilledIn,
  filledIn,
  type Guess,
  type GuessedFact,
  guessed,
  type NotedFigure,
} from './filled-in.ts'
import type { ConditionsOverrides } from './overrides.ts'

interface Stated {
  id?: string
  provenance?: Provenance | undefined
}

/** A network in the making: what the phases have added so far, and what they had to fill in. */
export class NetworkDraft {
  readonly system: WaterSystem
  readonly graph: SystemGraph
  readonly overrides: ConditionsOverrides
  readonly seed: number
  readonly log = new AssumptionLog()
  /** Why nothing can be said at all. */
  readonly reasons: CannotSay[] = []
  /** Parts of which nothing can be said. */
  readonly cannotSay: CannotSay[] = []
  readonly cautions = new Set<string>()
  readonly nodes: NetworkNode[] = []
  readonly pipes: NetworkPipe[] = []
  readonly outlets: NetworkOutlet[] = []
  readonly valves: NetworkValve[] = []
  readonly placed = new Map<string, PlacedComponent>()
  readonly placedPipes = new Map<string, PlacedPipe>()
  chemistry: Chemistry | undefined
  residualKnown = true
  /** Asked for each of thousands of pipes, put into words once. */
  readonly #figures = new Map<FilledIn, NotedFigure>()
  readonly #guesses = new Map<GuessedFact, Guess>()

  constructor(system: WaterSystem, { seed, overrides = {} }: { seed: number; overrides?: ConditionsOverrides }) {
    this.system = system
    this.graph = buildGraph(system)
    this.overrides = overrides
    this.seed = seed
  }

  addNode(node: NetworkNode): number {
    return this.nodes.push(node) - 1
  }

  /** A figure the description does not give, noted for the part it is filled in for. */
  fillIn(id: FilledIn, part?: string): number {
    const figure = this.#figures.get(id) ?? filledIn(id, this.overrides.assumed?.[id])
    this.#figures.set(id, figure)
    this.log.note(figure, part)
    return figure.value
  }

  choose(id: Choice, part?: string): void {
    this.log.note(choice(id), part)
  }

  /** A described figure; where it is marked guessed that is noted, and what is tried in its place applied. */
  described(thing: Stated, { fact, value }: { fact: GuessedFact; value: number }): number {
    if (knownByOf(thing, fact) !== 'guessed') return value
    const { shifts, assumption } = this.#guesses.get(fact) ?? guessed(fact, this.overrides.assumed)
    this.#guesses.set(fact, { shifts, assumption })
    this.log.note(assumption, thing.id)
    return shifts ? value + assumption.value : value * assumption.value
  }
}
