import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { Conductances } from './conductances.ts'
import { eliminationOrder } from './elimination-order.ts'

const nets = fc
  .tuple(
    fc.array(fc.nat(), { maxLength: 40 }),
    fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 60 }),
    fc.array(fc.double({ min: 0.001, max: 1000, noNaN: true }), { minLength: 7, maxLength: 7 }),
  )
  .map(([parents, more, sizes]) => {
    const places = parents.length + 1
    const links = [
      ...parents.map((parent, at) => [parent % (at + 1), at + 1] as const),
      ...more.map(([a, b]) => [a % places, b % places] as const),
    ]
    return {
      places,
      from: Int32Array.from(links, ([a]) => a),
      to: Int32Array.from(links, ([, b]) => b),
      conductance: Float64Array.from(links, (_, at) => sizes[at % sizes.length] as number),
    }
  })

test('what flows off at each place along the heads found is what flows in', () => {
  fc.assert(
    fc.property(nets, ({ places, from, to, conductance }) => {
      const net = new Conductances({ places, from, to })
      const inflow = Float64Array.from({ length: places }, (_, at) => ((at * 37) % 11) - 5)
      const head = new Float64Array(places)
      for (const times of [1, 3]) {
        net.factorise(conductance.map((each) => each * times))
        net.solve(inflow, head)
        const left = inflow.slice()
        from.forEach((a, link) => {
          const b = to[link] as number
          const flow = (conductance[link] as number) * times * ((head[a] as number) - (head[b] as number))
          left[a] = (left[a] as number) - flow
          left[b] = (left[b] as number) + flow
        })
        expect(Math.max(0, ...left.subarray(1).map(Math.abs))).toBeLessThan(1e-6)
      }
    }),
  )
})

test('every unknown is eliminated once, those of a chain always at an end of what is left, so that no new pair comes about', () => {
  const links = 9
  const a = Int32Array.from({ length: links }, (_, at) => at)
  const order = eliminationOrder({ count: links + 1, a, b: a.map((each) => each + 1) })
  expect([...order].sort((x, y) => x - y)).toEqual([...a, links])
  const left = new Set(order)
  for (const unknown of order) {
    left.delete(unknown)
    const near = [unknown - 1, unknown + 1].filter((other) => left.has(other))
    expect(near.length).toBeLessThan(2)
  }
})

test('a net of squares fills in far less than a full matrix', () => {
  const side = 40
  const at = (row: number, column: number) => row * side + column
  const pairs = Array.from({ length: side * side }, (_, place) => place).flatMap((place) => [
    ...(place % side < side - 1 ? [[place, place + 1] as const] : []),
    ...(place < at(side - 1, 0) ? [[place, place + side] as const] : []),
  ])
  const net = new Conductances({
    places: side * side,
    from: Int32Array.from(pairs, ([a]) => a),
    to: Int32Array.from(pairs, ([, b]) => b),
  })
  expect(net.work).toBeLessThan((side * side) ** 3 / 6 / 500)
})
