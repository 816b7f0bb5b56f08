import { assumedTemperaturesC } from './assumed-temperatures.ts'
import { FrictionTable } from './friction-table.ts'
import type { Network, NetworkPipe } from './network.ts'
import type { PipeLosses } from './chain-heads.ts'

/**
 * What the pipes are to the hydraulics, as lists by pipe.
 *
 * @param network its pipes
 * @param given temperature of all water (°C), or none: then as `assumedTemperaturesC` has it
 * @throws RangeError for a pipe that cannot be: an end that is no node, a length or bore of nothing, a roughness of half the bore, a negative loss
 * @source none: it only writes numbers down in another order
 */
export function pipeLosses(network: Network, given?: number): PipeLosses {
  const { nodes, pipes } = network
  const friction = new FrictionTable()
  const by = (of: (pipe: NetworkPipe) => number) => Float64Array.from(pipes, of)
  for (const pipe of pipes) check(pipe, nodes.length)
  const temperatureC = given === undefined ? assumedTemperaturesC(network) : new Float64Array(pipes.length).fill(given)
  return {
    id: pipes.map(({ id }) => id),
    friction,
    kind: Int32Array.from(pipes, ({ boreMm, roughnessMm }, at) =>
      friction.add({ boreMm, roughnessMm, temperatureC: temperatureC[at] as number }),
    ),
    lengthM: by(({ lengthM }) => lengthM),
    fittingLoss: by(({ fittingLoss }) => fittingLoss),
    shutOffHeadM: by(({ pump }) => pump?.shutOffHeadM ?? 0),
    headDropMPerLPerMin2: by(({ pump }) => pump?.headDropMPerLPerMin2 ?? 0),
    oneWay: Uint8Array.from(pipes, ({ oneWay }) => (oneWay === true ? 1 : 0)),
  }
}

function check(pipe: NetworkPipe, nodes: number): void {
  if (!isPossible(pipe, nodes)) refuse(pipe, nodes)
}

const isNode = (end: number, nodes: number): boolean => Number.isInteger(end) && end >= 0 && end < nodes
const isAmount = (value: number): boolean => value >= 0 && value < Number.POSITIVE_INFINITY

function isPossible(pipe: NetworkPipe, nodes: number): boolean {
  const { boreMm, roughnessMm, pump } = pipe
  const hasEnds = isNode(pipe.from, nodes) && isNode(pipe.to, nodes)
  const isPipe = isAmount(boreMm) && boreMm > 0 && isAmount(roughnessMm) && roughnessMm < boreMm / 2
  const isPump = pump === undefined || (isAmount(pump.shutOffHeadM) && isAmount(pump.headDropMPerLPerMin2))
  const resists = isAmount(pipe.lengthM) && pipe.lengthM > 0 && isAmount(pipe.fittingLoss)
  return hasEnds && isPipe && isPump && resists && Number.isFinite(pipe.fixedFlowLPerMin ?? 0)
}

/** Says what is wrong with a pipe that cannot be. */
function refuse({ id, ...pipe }: NetworkPipe, nodes: number): never {
  const { from, to, boreMm, roughnessMm, lengthM, fittingLoss, pump, fixedFlowLPerMin = 0 } = pipe
  const rules: readonly (readonly [boolean, string, number])[] = [
    [isNode(from, nodes), 'it must start at a node', from],
    [isNode(to, nodes), 'it must end at a node', to],
    [isAmount(boreMm) && boreMm > 0, 'its bore must be above 0 mm', boreMm],
    [isAmount(roughnessMm) && roughnessMm < boreMm / 2, 'its roughness must be below half its bore', roughnessMm],
    [isAmount(lengthM) && lengthM > 0, 'its length must be above 0 m', lengthM],
    [isAmount(fittingLoss), 'its loss coefficient must be 0 or more', fittingLoss],
    [isAmount(pump?.shutOffHeadM ?? 0), 'the head of its pump must be 0 m or more', pump?.shutOffHeadM ?? 0],
    [isAmount(pump?.headDropMPerLPerMin2 ?? 0), 'its pump must lose head with flow', pump?.headDropMPerLPerMin2 ?? 0],
  ]
  const broken = rules.find(([holds]) => !holds) ?? [false, 'its fixed flow must be a number', fixedFlowLPerMin]
  throw new RangeError(`Cannot find the flow of pipe "${id}" because ${broken[1]}: got ${broken[2]}`)
}
