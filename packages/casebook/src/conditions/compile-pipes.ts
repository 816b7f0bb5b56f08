import table from '@rillmark/reference/network/roughness.json' with { type: 'json' }
import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import { findPipeSize } from '@rillmark/science/pipes/pipe-catalogue.ts'
import { isOutlet, type Pipe } from '../building/water-system.ts'
import { airAroundC } from './air-around.ts'
import { nodeOfPipe } from './compile-nodes.ts'
import { circulationOf } from './circulation.ts'
import type { NetworkDraft } from './network-draft.ts'
import { type PipeHeat, pipeHeats, type WrappedPipe } from './pipe-heat.ts'

const COPPER = 'copper'
const PLASTIC = 'pex'

/** Every pipe, with its build, its surroundings and, in a circulation, its way round and what moves it. */
export function compilePipes(draft: NetworkDraft): void {
  const circulation = circulationOf(draft)
  const heatOf = pipeHeats()
  draft.choose('emissivity')
  for (const pipe of draft.system.pipes) {
    const turned = circulation.isTurned(pipe)
    const [begin, finish] = turned ? [pipe.to, pipe.from] : [pipe.from, pipe.to]
    const [from, to] = [nodeOfPipe(draft, { id: begin, pipe }), nodeOfPipe(draft, { id: finish, pipe })]
    const returning = pipe.circuit === 'hot-return' && draft.nodes[to]?.kind === 'vessel'
    const build = buildOf(draft, { pipe, heatOf })
    const moved = circulation.movedBy(pipe)
    const lengthM =
      draft.described(pipe, { fact: 'lengthM', value: pipe.lengthM }) * (draft.overrides.lengthFactor?.[pipe.id] ?? 1)
    const fittingLoss = draft.fillIn('fittingLossPerM', pipe.id) * lengthM
    const index = draft.pipes.push({ id: pipe.id, from, to, returning, lengthM, fittingLoss, ...build, ...moved }) - 1
    draft.placedPipes.set(pipe.id, { pipe: index, turned })
  }
  addCrossFlows(draft)
}

type Build = Pick<NetworkPipe, 'boreMm' | 'roughnessMm' | 'ambientC'> & PipeHeat

function buildOf(
  draft: NetworkDraft,
  { pipe, heatOf }: { pipe: Pipe; heatOf: (pipe: WrappedPipe) => PipeHeat },
): Build {
  const { boreMm, outsideDiameterMm } = diametersOf(draft, pipe)
  const material = materialOf(draft, pipe)
  const ambientC = airAroundC(draft, pipe)
  const carries = pipe.circuit === 'cold' ? 'cold' : 'hot'
  const { hotLossFactor = 1, coldLossFactor = 1 } = draft.overrides
  const heat = heatOf({ boreMm, outsideDiameterMm, material, ambientC, carries, ...insulationOf(draft, pipe) })
  const inService = draft.fillIn('lossInService', pipe.id) * (carries === 'cold' ? coldLossFactor : hotLossFactor)
  const lossWPerMK = heat.lossWPerMK * inService
  return { boreMm, ambientC, roughnessMm: roughnessOf(draft, { pipe, material }), ...heat, lossWPerMK }
}

function diametersOf(draft: NetworkDraft, pipe: Pipe): { boreMm: number; outsideDiameterMm: number } {
  const { standard, size } = pipe
  const listed = standard === undefined || size === undefined ? undefined : findPipeSize({ standard, size })
  const stated = pipe.boreMm ?? listed?.boreMm
  if (stated === undefined) throw new RangeError(`Cannot compile pipe ${pipe.id} because it has no bore`)
  const boreMm = pipe.boreMm === undefined ? stated : draft.described(pipe, { fact: 'boreMm', value: stated })
  const outside = pipe.outsideDiameterMm ?? listed?.outsideDiameterMm
  const wallMm = outside === undefined ? draft.fillIn('wallMm', pipe.id) : (outside - stated) / 2
  return { boreMm, outsideDiameterMm: boreMm + 2 * wallMm }
}

function materialOf(draft: NetworkDraft, { id, standard }: Pipe): typeof COPPER | typeof PLASTIC {
  if (standard === undefined) draft.choose('material', id)
  return standard?.startsWith(PLASTIC) === true ? PLASTIC : COPPER
}

function roughnessOf(draft: NetworkDraft, { pipe, material }: { pipe: Pipe; material: 'copper' | 'pex' }): number {
  if (pipe.roughnessMm === undefined) return roughnessMm(material)
  return draft.described(pipe, { fact: 'roughnessMm', value: pipe.roughnessMm })
}

function roughnessMm(material: string): number {
  const found = table.roughness.find(({ id }) => id === material)
  if (found === undefined)
    throw new RangeError(`Cannot tell the roughness because the material is unknown: got ${material}`)
  return found.value
}

function insulationOf(
  draft: NetworkDraft,
  pipe: Pipe,
): Pick<WrappedPipe, 'insulationMm' | 'insulationConductivityWPerMK'> {
  const { insulationMm: thick, insulationConductivityWPerMK: conducts } = pipe
  const insulationMm =
    thick === undefined
      ? draft.fillIn('insulationMm', pipe.id)
      : draft.described(pipe, { fact: 'insulationMm', value: thick })
  if (insulationMm === 0) return { insulationMm, insulationConductivityWPerMK: 1 }
  const fact = 'insulationConductivityWPerMK'
  const conductivity =
    conducts === undefined ? draft.fillIn(fact, pipe.id) : draft.described(pipe, { fact, value: conducts })
  return { insulationMm, insulationConductivityWPerMK: conductivity }
}

/** Cold water that passes into the hot side at a mixing valve or outlet: a short pipe of known flow between its two ports. */
function addCrossFlows(draft: NetworkDraft): void {
  for (const [id, fixedFlowLPerMin] of Object.entries(draft.overrides.crossFlowLPerMin ?? {})) {
    const { circuits } = draft.placed.get(id) ?? { circuits: {} }
    const component = draft.graph.components.get(id)
    const like = draft.pipes.find((pipe) => pipe.to === circuits.cold || pipe.from === circuits.cold)
    const warm = component !== undefined && isOutlet(component) ? (circuits.hot ?? circuits.tempered) : circuits.hot
    if (like === undefined || circuits.cold === undefined || warm === undefined)
      throw new RangeError(`Cannot let water cross at ${id} because it has not both sides`)
    if (fixedFlowLPerMin === 0) continue
    const { pump: _, ...build } = like
    const lengthM = CROSSING_M
    draft.pipes.push({ ...build, id: `${id} crossing`, from: circuits.cold, to: warm, lengthM, fixedFlowLPerMin })
  }
}

/** As long as the body of a mixing valve. */
const CROSSING_M = 0.1
