import { assumedTemperaturesC } from './assumed-temperatures.ts'
import { FrictionTable } from './friction-table.ts'
import type { Network, NetworkPipe } from './network.ts'
import type { PipeLosses } from './ring-solver.ts'

/**
 * What the pipes are to the hydraulics, as lists by pipe.
 *
 * @param network its pipes
 * @param given temperature of all water (°C), or none: then as `assumedTemperaturesC` has it
 * @throws RangeError for a pipe that cannot be: an end that is no node, a bore of nothing, a roughness of half the bore, a negative loss
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
  const { from, to, boreMm, roughnessMm, lengthM, fittingLoss, pump, fixedFlowLPerMin = 0 } = pipe
  const isNode = (end: number) => Number.isInteger(end) && end >= 0 && end < nodes
  const isAmount = (value: number) => Number.isFinite(value) && value >= 0
  const rules: readonly (readonly [boolean, string, number])[] = [
    [isNode(from), 'it must start at a node', from],
    [isNode(to), 'it must end at a node', to],
    [isAmount(boreMm) && boreMm > 0, 'its bore must be above 0 mm', boreMm],
    [isAmount(roughnessMm) && roughnessMm < boreMm / 2, 'its roughness must be below half its bore', roughnessMm],
    [isAmount(lengthM), 'its length must be 0 m or more', lengthM],
    [isAmount(fittingLoss), 'its loss coefficient must be 0 or more', fittingLoss],
    [isAmount(pump?.shutOffHeadM ?? 0), 'the head of its pump must be 0 m or more', pump?.shutOffHeadM ?? 0],
    [isAmount(pump?.headDropMPerLPerMin2 ?? 0), 'its pump must lose head with flow', pump?.headDropMPerLPerMin2 ?? 0],
    [Number.isFinite(fixedFlowLPerMin), 'its fixed flow must be a number', fixedFlowLPerMin],
  ]
  const broken = rules.find(([holds]) => !holds)
  if (broken !== undefined) {
    throw new RangeError(`Cannot find the flow of pipe "${pipe.id}" because ${broken[1]}: got ${broken[2]}`)
  }
}
