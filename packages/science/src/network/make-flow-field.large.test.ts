import { expect, test } from 'vitest'
import { makeFlowField } from './make-flow-field.ts'
import type { Network, NetworkNode, NetworkPipe } from './network.ts'

const PIPES = 100_000

/** A hundred thousand pipes in a row from the source, and one more that leads from the last node to `closing`. */
function inARow(closing?: number): Network {
  const nodes = Array.from(
    { length: PIPES + 1 },
    (_, at): NetworkNode =>
      at === 0
        ? { id: 'source', kind: 'source', temperatureC: 12, residualMgPerL: 0.5 }
        : { id: `node ${at}`, kind: 'junction' },
  )
  const pipe = (from: number, to: number): NetworkPipe => ({
    id: `pipe ${from}`,
    from,
    to,
    returning: false,
    lengthM: 1,
    boreMm: 20,
    roughnessMm: 0.0015,
    fittingLoss: 0,
    lossWPerMK: 0,
    lossAtK: 30,
    lossPower: 0,
    wallHeatJPerMK: 0,
    ambientC: 20,
  })
  const pipes = Array.from({ length: PIPES }, (_, at) => pipe(at, at + 1))
  if (closing !== undefined) pipes.push(pipe(PIPES, closing))
  const chemistry: Network['chemistry'] = {
    disinfectant: 'none',
    bulkPerHour: 0,
    wallMPerHour: 0,
    referenceC: 20,
    standingSherwood: 2,
  }
  return { nodes, pipes, outlets: [], valves: [], chemistry }
}

test('a hundred thousand pipes in a row carry what is drawn at their end', () => {
  const field = makeFlowField(inARow())
  field.setDemand(PIPES, 3)
  field.settle()
  expect([field.flows[0], field.flows[PIPES - 1]]).toEqual([3, 3])
})

test('a ring of a hundred thousand pipes brings half of what is drawn at its middle each way', () => {
  const field = makeFlowField(inARow(0))
  field.setDemand(PIPES / 2, 3)
  field.settle()
  expect(field.flows[0]).toBeCloseTo(1.5, 3)
  expect(field.flows[PIPES]).toBeCloseTo(-1.5, 3)
})
