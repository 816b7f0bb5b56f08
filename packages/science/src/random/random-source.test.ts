import { expect, test } from 'vitest'
import { gammaCdf } from '../distributions/gamma.ts'
import { RandomSource, seededRandom, splitMix64 } from './random-source.ts'

test('the bits are those of the reference implementation, version 1.1, from the state 1, 2, 3, 4', () => {
  // As in the test of the Rust crate rand_xoshiro, produced with the authors' own C (seen).
  const source = new RandomSource([1, 2, 3, 4])
  expect(Array.from({ length: 10 }, () => source.bits())).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
  ])
})

test('the state is filled as SplitMix64 of 1234567 has it', () => {
  // Rosetta Code, Pseudo-random numbers/Splitmix64 (seen as quoted in the tests of several libraries).
  expect(splitMix64(1234567n, 5)).toEqual([
    6457827717110365317n,
    3203168211198807973n,
    9817491932198370423n,
    4593380528125082431n,
    16408922859458223821n,
  ])
})

test('a seed is repeated exactly, another one differs, and what is no seed is refused', () => {
  const first = (seed: number) => {
    const source = seededRandom(seed)
    return Array.from({ length: 20 }, () => [source.uniform(), source.normal(), source.gamma(0.3)])
  }
  expect(first(7)).toEqual(first(7))
  expect(first(7)).not.toEqual(first(8))
  for (const bad of [-1, 0.5, 2 ** 32, Number.NaN]) expect(() => seededRandom(bad)).toThrow(RangeError)
  expect(() => new RandomSource([0, 0, 0, 0])).toThrow(RangeError)
})

const DRAWS = 200_000
/** The largest gap between drawn and exact shares is under 1.95/√n in all but 1 of 1000 samples (Kolmogorov); the seed is fixed. */
const GAP = 1.95 / Math.sqrt(DRAWS)

/** P(Z ≤ z) by the exact gamma distribution of shape ½: another road than the draws took. */
const normalCdf = (z: number) => (1 + Math.sign(z) * gammaCdf((z * z) / 2, { shape: 0.5 })) / 2

test.each<[string, (source: RandomSource) => number, (x: number) => number]>([
  ['uniform', (source) => source.uniform(), (x) => x],
  ['normal', (source) => source.normal(), normalCdf],
  ['gamma of shape 0.386', (source) => source.gamma(0.386), (x) => gammaCdf(x, { shape: 0.386 })],
  ['gamma of shape 1', (source) => source.gamma(1), (x) => gammaCdf(x, { shape: 1 })],
  ['gamma of shape 12.5', (source) => source.gamma(12.5), (x) => gammaCdf(x, { shape: 12.5 })],
  ['gamma of shape 2000', (source) => source.gamma(2000), (x) => gammaCdf(x, { shape: 2000 })],
])('%s variates fall as their distribution says', (_, draw, cdf) => {
  const source = seededRandom(20240601)
  const drawn = Float64Array.from({ length: DRAWS }, () => draw(source)).toSorted()
  const gaps = Array.from({ length: 999 }, (_each, at) => {
    const rank = Math.round(((at + 1) / 1000) * DRAWS)
    return Math.abs(cdf(drawn[rank - 1] ?? 0) - rank / DRAWS)
  })
  expect(Math.max(...gaps)).toBeLessThan(GAP)
})

test('neighbouring normal variates are not related', () => {
  const source = seededRandom(3)
  let products = 0
  for (let i = 0; i < DRAWS; i++) products += source.normal() * source.normal()
  // five standard errors of a mean of products of independent variates
  expect(Math.abs(products / DRAWS)).toBeLessThan(5 / Math.sqrt(DRAWS))
})
