import { expect, test } from 'vitest'
import type { Network } from './network.ts'
import { twigsOf } from './twigs.ts'

const pipe = (from: number, to: number) => ({ from, to }) as Network['pipes'][number]
const junction = (id: string) => ({ id, kind: 'junction' }) as const

test('what hangs on a ring is found from its ends inward; the ring, and the way from source to vessel, are left', () => {
  const network = {
    nodes: [
      { id: 'source', kind: 'source', temperatureC: 10, residualMgPerL: 0 },
      junction('foot'),
      junction('left'),
      junction('right'),
      junction('branch'),
      junction('tap'),
      { id: 'store', kind: 'vessel' },
    ],
    pipes: [pipe(0, 1), pipe(1, 2), pipe(3, 2), pipe(1, 3), pipe(4, 3), pipe(4, 5), pipe(1, 6)],
    outlets: [],
    valves: [],
  } as unknown as Network
  expect(twigsOf(network)).toEqual([
    { node: 5, pipe: 5, near: 4 },
    { node: 4, pipe: 4, near: 3 },
  ])
})

test('a port of a mixing valve is no twig: water goes on from there', () => {
  const network = {
    nodes: [{ id: 'source', kind: 'source' }, junction('port'), junction('other'), { id: 'mixed', kind: 'mixed' }],
    pipes: [pipe(0, 1), pipe(0, 2)],
    outlets: [],
    valves: [{ id: 'valve', hotNode: 1, coldNode: 3, mixedNode: 3, setpointC: 41 }],
  } as unknown as Network
  expect(twigsOf(network)).toEqual([{ node: 2, pipe: 1, near: 0 }])
})
