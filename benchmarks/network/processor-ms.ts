import type { Network } from '@rillmark/science/network/network.ts'
import { ageRun, type EngineSteps } from './age-run.ts'

/** Processor time of a run in milliseconds, all threads together. */
export function processorMs(run: () => unknown): number {
  const began = process.cpuUsage()
  run()
  const { user, system } = process.cpuUsage(began)
  return (user + system) / 1000
}

/** Processor time of the engine's water age of a day, its file already open. */
export function engineMs(network: Network, steps: EngineSteps): number {
  const engine = ageRun(network, steps)
  const took = processorMs(engine.run)
  engine.close()
  return took
}

export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
