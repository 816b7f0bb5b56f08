import { ASSUMED, assumedHot, assumedPipe, assumedUse } from './assumptions.ts'
import type { SystemChange } from './kinds.ts'
import { idPart } from './quick-description.ts'
import type { Circuit, Component, ComponentKind, KnownBy, Pipe, WaterSystem } from './water-system.ts'
import { CIRCUITS, isHeater, isOutlet } from './water-system.ts'
import { given } from '../entry/given.ts'

/** What a person says of a part they add. */
export interface NewPart {
  readonly kind: ComponentKind
  readonly floor?: number | undefined
  readonly riser?: string | undefined
  readonly room?: string | undefined
  readonly label?: string | undefined
  /** How kind, place and name are known; lengths, sizes and use are guessed until someone says otherwise. */
  readonly known: KnownBy
  /** Where its water comes from, by circuit: the id of a component. */
  readonly feeds: Partial<Record<Circuit, string>>
}

/** The circuits a part of this kind is joined to. */
export function circuitsFor(kind: ComponentKind): readonly Circuit[] {
  if (isHeater({ kind }) || kind === 'cold-tank' || kind === 'treatment' || kind === 'supply-entry') return ['cold']
  if (kind === 'mixing-valve') return ['hot', 'cold']
  if (MEETS_ANY.has(kind)) return CIRCUITS
  return assumedHot(kind) ? ['hot', 'cold'] : ['cold']
}

/** Parts that may lie on a pipe of any circuit: nobody can guess which. */
const MEETS_ANY: ReadonlySet<ComponentKind> = new Set(['junction', 'pump', 'drain-valve'])

/**
 * Where a new part at a place would most simply be joined, circuit by circuit: the junction of that riser and floor, else the nearest floor of the
 * riser. A circuit the riser does not carry is left out; tempered water stands in for hot where the building mixes centrally.
 */
export function suggestedFeeds(
  system: WaterSystem,
  place: { kind: ComponentKind; floor: number | undefined; riser: string | undefined },
): Partial<Record<Circuit, string>> {
  const { floor, riser } = place
  if (floor === undefined || riser === undefined || MEETS_ANY.has(place.kind)) return {}
  const joints = jointsOn(system, riser)
  const feeds: Partial<Record<Circuit, string>> = {}
  for (const circuit of circuitsFor(place.kind)) {
    const carrying = joints.has(circuit) || circuit !== 'hot' ? circuit : 'tempered'
    const nearest = [...(joints.get(carrying) ?? [])].sort(byDistance(floor))[0]
    if (nearest !== undefined) feeds[carrying] = nearest.id
  }
  return feeds
}

function jointsOn({ components, pipes }: WaterSystem, riser: string): Map<Circuit, Set<Component>> {
  const junctions = new Map(
    components.filter((one) => one.kind === 'junction' && one.riser === riser).map((one) => [one.id, one]),
  )
  const joints = new Map<Circuit, Set<Component>>()
  for (const { circuit, from, to } of pipes)
    for (const end of [junctions.get(from), junctions.get(to)]) {
      if (end === undefined) continue
      const known = joints.get(circuit)
      if (known === undefined) joints.set(circuit, new Set([end]))
      else known.add(end)
    }
  // A return's own junction is no place to draw hot water from, and where a return leaves the flow is no return's junction.
  const returns = joints.get('hot-return')
  for (const circuit of ['hot', 'tempered'] as const) for (const one of joints.get(circuit) ?? []) returns?.delete(one)
  return joints
}

const byDistance =
  (floor: number) =>
  (a: Component, b: Component): number =>
    Math.abs((a.floor ?? 0) - floor) - Math.abs((b.floor ?? 0) - floor) || (a.id < b.id ? -1 : 1)

/** The changes that add a part and a pipe for each of its feeds. What nobody said (length, size, use) is assumed and marked guessed. */
export function addPart(system: WaterSystem, part: NewPart): { id: string; changes: SystemChange[] } {
  const { kind, floor, riser, room, label, known } = part
  const id = freeId(
    system.components.map((one) => one.id),
    [kind, riser, room ?? (floor === undefined ? undefined : `f${floor}`)].filter((one) => one !== undefined).join(' '),
  )
  const said = { floor, riser, room, label }
  const given = Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined && value !== ''))
  const component: Component = {
    id,
    kind,
    ...given,
    ...(isOutlet({ kind }) ? { use: useFor(part) } : {}),
    provenance: { default: known, ...(isOutlet({ kind }) ? { use: 'guessed' as const } : {}) },
  }
  const pipes = Object.entries(part.feeds).map(([circuit, from]) =>
    branch(system, { component, from, circuit: circuit as Circuit }),
  )
  return {
    id,
    changes: [{ change: 'put-component', component }, ...pipes.map((pipe) => ({ change: 'put-pipe' as const, pipe }))],
  }
}

/** No mixing where no warm water comes. */
function useFor({ kind, feeds }: NewPart): Component['use'] {
  const use = assumedUse(kind)
  const warm = feeds.hot !== undefined || (feeds.tempered !== undefined && feeds.cold !== undefined)
  if (warm || use.pattern !== 'pulses') return use
  const { mixToC: _, ...unmixed } = use
  return unmixed
}

/** Sized as the pipes beside it are; across floors as long as the floors are high. */
function branch(system: WaterSystem, given: { component: Component; from: string; circuit: Circuit }): Pipe {
  const { component, from, circuit } = given
  const floors = Math.abs((component.floor ?? 0) - (floorOf(system, from) ?? component.floor ?? 0))
  const beside = system.pipes.findLast((pipe) => pipe.circuit === circuit && pipe.from === from)
  const size = beside === undefined ? assumedPipe(NO_PIPES_SAID, 1) : sizeOf(beside)
  return {
    id: freeId(
      system.pipes.map((one) => one.id),
      `${circuit} ${from} to ${component.id}`,
    ),
    from,
    to: component.id,
    circuit,
    lengthM: ASSUMED.branchFirstM + floors * ASSUMED.floorHeightM,
    ...size,
    provenance: { default: 'guessed' },
  }
}

const NO_PIPES_SAID = {
  name: 'unsaid',
  floors: 1,
  risers: 1,
  outlets: {},
  recirculation: 'none',
  mixing: 'none',
  supply: { disinfectant: 'unknown' },
} as const

const floorOf = ({ components }: WaterSystem, id: string): number | undefined =>
  components.find((one) => one.id === id)?.floor

function sizeOf(pipe: Pipe): Partial<Pipe> {
  const { boreMm, outsideDiameterMm, standard, size, insulationMm, insulationConductivityWPerMK } = pipe
  return given({ boreMm, outsideDiameterMm, standard, size, insulationMm, insulationConductivityWPerMK })
}

/** The words as an id nobody has yet. */
function freeId(taken: readonly string[], words: string): string {
  const ids = new Set(taken)
  const base = idPart(words).slice(0, 70)
  if (!ids.has(base)) return base
  for (let count = 2; ; count++) if (!ids.has(`${base}-${count}`)) return `${base}-${count}`
}
