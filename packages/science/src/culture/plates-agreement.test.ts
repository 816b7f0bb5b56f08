import { expect, test } from 'vitest'
import { seededRandom } from '../random/random-source.ts'
import type { Plate } from './plates.ts'
import { platesAgreement } from './plates-agreement.ts'

const plates = (...each: [colonies: number, platedMl: number][]): Plate[] =>
  each.map(([colonies, platedMl]) => ({ colonies, platedMl, concentrationFactor: 1 }))

test('the test is the arithmetic done by hand', () => {
  // e = 20 and 20: G = 2·(30·ln 1.5 + 10·ln 0.5) = 10.464963; q = 1 + 3/(6·40); one degree of freedom: p = erfc(√(G/q/2))
  expect(platesAgreement(plates([30, 1], [10, 1]))?.p).toBeCloseTo(0.00130477, 7)
  // G = 2.9642664851751093 by scipy 1's power_divergence (computed); q = 1 + 21/(6·49·3), three degrees of freedom
  expect(platesAgreement(plates([3, 1], [9, 2], [30, 5], [7, 2]))?.p).toBeCloseTo(0.40804634350584856, 9)
})

test('plates without colonies, one plate and plates that are no plain count say nothing', () => {
  expect(platesAgreement(plates([0, 1], [0, 1]))).toBeUndefined()
  expect(platesAgreement(plates([9, 1]))).toBeUndefined()
  const [one, other] = plates([90, 1], [1, 1])
  expect(platesAgreement([one, { ...other, overgrown: 'by-legionella' }] as Plate[])).toBeUndefined()
  expect(platesAgreement([{ ...one, confirmedOf: 5, confirmed: 5 }, other] as Plate[])).toBeUndefined()
  expect(platesAgreement([{ ...one, confirmedOf: 90, confirmed: 1 }, other] as Plate[])?.p).toBe(1)
})

test('water that is one water is doubted about once in a hundred times and no oftener, few colonies or many', () => {
  const random = seededRandom(7)
  const poisson = (mean: number) => {
    let [count, time] = [0, -Math.log(random.uniform())]
    for (; time < mean; count++) time -= Math.log(random.uniform())
    return count
  }
  const designs = [
    [50, 50],
    [100, 10, 1],
    [1, 1, 1, 1, 1, 1, 1, 1, 1, 1],
    [30, 0.01],
    [0.2, 0.2, 0.2, 5],
  ]
  for (const means of designs) {
    let doubted = 0
    for (let i = 0; i < 5000; i++) {
      const p = platesAgreement(plates(...means.map((mean): [number, number] => [poisson(mean), mean])))?.p ?? 1
      if (p < 0.01) doubted += 1
    }
    // 50 expected at most; 4 standard deviations above.
    expect(doubted, means.join()).toBeLessThan(80)
  }
})
